import { expect, it } from 'vitest';
import { encodingNote, encodingOf } from '../../../core/files/encoding.ts';

// The Unicode Standard: FF FE is little, FE FF big endian.
it.each<[number[], string]>([
  [[0xff, 0xfe, 0x66, 0], 'utf-16le'],
  [[0xfe, 0xff, 0, 0x66], 'utf-16be'],
  [[0xef, 0xbb, 0xbf], 'utf-8'],
  [[0x66], 'utf-8'],
  [[], 'utf-8'],
])('%j is %s', (bytes, encoding) => {
  expect(encodingOf(Uint8Array.from(bytes))).toBe(encoding);
  if (bytes.length > 3) expect(new TextDecoder(encoding).decode(Uint8Array.from(bytes))).toBe('f');
});

/** The same letters as an older program writes them. */
const oneByteEach = (text: string) => Buffer.from(text, 'latin1');

it('knows a file of one byte a letter, and says so', () => {
  const bytes = oneByteEach('Pegel dB\u00B5V, K\u00FCche');
  expect(encodingOf(bytes)).toBe('windows-1252');
  expect(new TextDecoder(encodingOf(bytes)).decode(bytes)).toBe('Pegel dB\u00B5V, K\u00FCche');
  expect(encodingNote('windows-1252')).toMatch(/not in UTF-8/);
  expect(encodingNote('utf-8')).toBeNull();
});

it('takes no file for that in which a letter of UTF-8 stands or was cut', () => {
  const whole = new TextEncoder().encode('dB\u00B5V \u{1F4A1} \u2212');
  expect(encodingOf(whole)).toBe('utf-8');
  for (let length = 0; length <= whole.length; length++)
    expect(encodingOf(whole.slice(0, length)), `cut at ${length}`).toBe('utf-8');
  expect(encodingOf(Buffer.concat([oneByteEach('\u00FC '), whole]))).toBe('utf-8');
});
