import path from 'node:path';
import envPaths from 'env-paths';

/** Where the archive lives: the folder that was asked for, else the user's data folder. The same for every host. */
export function dataFolder(asked: string | undefined): string {
  return asked === undefined ? envPaths('Tiltwright', { suffix: '' }).data : path.resolve(asked);
}
