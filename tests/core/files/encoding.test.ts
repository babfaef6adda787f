import { expect, it } from 'vitest';
import { encodingOf } from '../../../core/files/encoding.ts';

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
