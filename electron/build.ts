import path from 'node:path';
import { buildPart } from './builds.ts';

const root = path.join(import.meta.dirname, '..');
await buildPart(root, 'page');
await buildPart(root, 'window');
process.stdout.write('Built into dist/.\n');
