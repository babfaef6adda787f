import { readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize, relative, resolve } from 'node:path';

export const root = resolve(import.meta.dirname, '../..');

/** Every file below a folder of the project, as paths from its top, with forward slashes. */
export function filesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => relative(root, join(entry.parentPath, entry.name)).replaceAll('\\', '/'))
    .filter((path) => !path.includes('node_modules/') && !path.includes('/dist/'))
    .sort();
}

export const textOf = (path: string): string => readFileSync(join(root, path), 'utf8');

export type Import = Readonly<{ file: string; target: string; foreign: boolean }>;

const importPattern =
  /(?:^|\n)\s*(?:import|export)\s[^'"`;]*?from\s*['"]([^'"]+)['"]|(?:^|\n)\s*import\s*['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g;

/** What a file imports: a path from the top for our own files, the package's name for a foreign one. */
export function importsOf(file: string): Import[] {
  return [...textOf(file).matchAll(importPattern)].map((match) => {
    const specifier = match[1] ?? match[2] ?? match[3] ?? '';
    if (specifier.startsWith('.')) {
      const target = normalize(join(dirname(file), specifier)).replaceAll('\\', '/');
      return { file, target, foreign: false };
    }
    const parts = specifier.split('/');
    const target = specifier.startsWith('@') ? parts.slice(0, 2).join('/') : (parts[0] ?? specifier);
    return { file, target, foreign: true };
  });
}
