export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be';

/**
 * How a file's bytes are written, by its byte order mark.
 * @param bytes  at least the first two
 * @returns  UTF-16 where its mark stands there, else UTF-8
 * @source   The Unicode Standard, "Byte order mark"
 */
export function encodingOf(bytes: Uint8Array): Encoding {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  return 'utf-8';
}
