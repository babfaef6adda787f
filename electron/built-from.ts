import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';

/** The two halves of the built program: the page, which both hosts show, and what only Electron's window needs. */
export type BuiltPart = 'page' | 'window';

const sources: Readonly<Record<BuiltPart, readonly string[]>> = {
  page: ['renderer', 'core', 'package.json'],
  window: ['electron', 'core', 'package.json'],
};
const products: Readonly<Record<BuiltPart, string>> = {
  page: 'dist/renderer/index.html',
  window: 'dist/main/main.mjs',
};

const stampFile = (root: string, part: BuiltPart) => path.join(root, 'dist', `${part}.built-from`);

function filesUnder(root: string, inside: string): string[] {
  const whole = path.join(root, inside);
  if (!existsSync(whole)) return [];
  return readdirSync(whole, { withFileTypes: true }).flatMap((entry) => {
    const below = path.join(inside, entry.name);
    return entry.isDirectory() ? filesUnder(root, below) : [below];
  });
}

/** What a part is made from, as one digest of names and contents: a date says nothing after a clone or an unpacking. */
export function digestOfSources(root: string, part: BuiltPart): string {
  const hash = createHash('sha256');
  for (const from of sources[part]) {
    const files = from.includes('.') ? [from] : filesUnder(root, from).sort();
    for (const file of files)
      hash
        .update(file)
        .update('\0')
        .update(readFileSync(path.join(root, file)));
  }
  return hash.digest('hex');
}

/** Whether a part has to be built: it isn't there, or was made from other sources. A tree without sources is never. */
export function needsBuild(root: string, part: BuiltPart): boolean {
  const first = sources[part][0] ?? '';
  if (!existsSync(path.join(root, first, 'tsconfig.json'))) return false;
  if (!existsSync(path.join(root, products[part])) || !existsSync(stampFile(root, part))) return true;
  return readFileSync(stampFile(root, part), 'utf8') !== digestOfSources(root, part);
}

/** Builds a part between taking its stamp away and giving it a new one: an interrupted build is built again. */
export async function stamped(root: string, part: BuiltPart, build: () => Promise<void>): Promise<void> {
  const from = digestOfSources(root, part);
  rmSync(stampFile(root, part), { force: true });
  await build();
  writeFileSync(stampFile(root, part), from);
}
