import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { unpackWoff } from './unpack-woff.ts';

export type Weight = 400 | 700;

/** One file of type; `family` and `script` as its package names them. */
export type TypeFile = Readonly<{ name: string; weight: Weight; bytes: Buffer }>;

const require = createRequire(import.meta.url);

/** In the order in which a letter is looked for. The second family stands in for letters that the first lacks. */
const SCRIPTS = [
  ['atkinson-hyperlegible-next', 'latin'],
  ['atkinson-hyperlegible-next', 'latin-ext'],
  ['noto-sans', 'latin'],
  ['noto-sans', 'latin-ext'],
  ['noto-sans', 'greek'],
  ['noto-sans', 'cyrillic'],
  ['noto-sans', 'cyrillic-ext'],
  ['noto-sans', 'vietnamese'],
] as const;

const known = new Map<string, TypeFile>();

function typeFile(family: string, script: string, weight: Weight, form: 'woff' | 'woff2'): TypeFile {
  const name = `${family}-${script}-${weight}.${form}`;
  const found = known.get(name);
  if (found !== undefined) return found;
  const path = require.resolve(`@fontsource/${family}/files/${family}-${script}-${weight}-normal.${form}`);
  const packed = readFileSync(path);
  const file = { name, weight, bytes: form === 'woff' ? unpackWoff(packed) : packed };
  known.set(name, file);
  return file;
}

/**
 * The places where a letter may be found, in order; a file is read when the ones before it lack a letter. For a PDF the
 * older packing is taken: fontkit 2.0.4 fails on letters made of others (an accent on an e) when it takes them out of woff2.
 */
export const typeFiles = (weight: Weight): readonly (() => TypeFile)[] =>
  SCRIPTS.map(
    ([family, script]) =>
      () =>
        typeFile(family, script, weight, 'woff'),
  );

/** What a page of HTML embeds: the report's own family; for other letters a browser has type of its own. */
export function embeddedType(): readonly Readonly<{
  weight: Weight;
  unicodeRange: string;
  base64: string;
}>[] {
  const ranges = {
    latin: 'U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+2000-206F,U+20AC,U+2122,U+2212',
    'latin-ext': 'U+0100-02BA,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F',
  } as const;
  return (['latin', 'latin-ext'] as const).flatMap((script) =>
    ([400, 700] as const).map((weight) => ({
      weight,
      unicodeRange: ranges[script],
      base64: typeFile('atkinson-hyperlegible-next', script, weight, 'woff2').bytes.toString('base64'),
    })),
  );
}
