import path from 'node:path';
import { withBuildLock } from './build-lock.ts';
import { buildPart } from './builds.ts';

const root = path.join(import.meta.dirname, '..');
await withBuildLock(
  root,
  () => true,
  async () => {
    await buildPart(root, 'page');
    await buildPart(root, 'window');
  },
);
process.stdout.write('Built into dist/.\n');
