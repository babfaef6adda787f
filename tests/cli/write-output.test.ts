import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeOutput } from '../../electron/cli/write-output.ts';
import { throwAwayFolder } from '../support/archive.ts';
import { root } from '../support/source-files.ts';

describe('an output file', () => {
  it('is written whole, once', async () => {
    const path = join(throwAwayFolder(), 'a.csv');
    await writeOutput(path, 'first');
    await expect(writeOutput(path, 'second')).rejects.toMatchObject({
      refusal: { where: path, help: expect.stringContaining('nothing is written over') },
    });
  });

  // A shell of Linux and macOS limits how large a file may grow: the disk that is full in the middle.
  it.skipIf(process.platform === 'win32')('leaves no beginning where there is no room for all of it', () => {
    const folder = throwAwayFolder();
    const main = [
      '--import',
      resolve(root, 'electron/node-floor.mjs'),
      resolve(root, 'electron/cli/main.ts'),
    ];
    const sweep = resolve(root, 'sample-sweeps/07-mill-lane.as-found.csv');
    const args = ['convert', sweep, '--to', 'json', '--out', join(folder, 'a.json')];
    const ran = spawnSync('sh', ['-c', 'ulimit -f 1 && exec "$0" "$@"', process.execPath, ...main, ...args], {
      cwd: root,
      encoding: 'utf8',
    });
    expect(ran).toMatchObject({ status: 2, stdout: '' });
    expect(ran.stderr).toMatch(/^.*a\.json: can't be written \(EFBIG\); check the folder\n$/);
    expect(readdirSync(folder)).toEqual([]);
  });
});
