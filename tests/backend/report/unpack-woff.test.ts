import { create } from 'fontkit';
import { expect, it } from 'vitest';
import { typeFiles } from '../../../electron/backend/report/type-files.ts';
import { unpackWoff } from '../../../electron/backend/report/unpack-woff.ts';

it('gives a font that fontkit reads as TrueType, with the letters that it is for', () => {
  const [latin] = typeFiles(400);
  const file = latin?.();
  if (file === undefined) throw new Error('no type');
  // OpenType 1.9: a TrueType font begins with 0x00010000.
  expect(file.bytes.readUInt32BE(0)).toBe(0x00010000);
  const font = create(file.bytes);
  if (!('hasGlyphForCodePoint' in font)) throw new Error('a collection');
  for (const letter of '0123456789\u2212\u00B1\u00E9')
    expect(font.hasGlyphForCodePoint(letter.codePointAt(0) ?? 0)).toBe(true);
});

it('refuses what is no WOFF file', () => {
  expect(() =>
    unpackWoff(Buffer.from('wOF2 and more bytes than a header has, so that its length is no reason')),
  ).toThrow('WOFF');
  expect(() => unpackWoff(Buffer.alloc(0))).toThrow('WOFF');
});
