export type Encoding = 'utf-8' | 'utf-16le' | 'utf-16be' | 'windows-1252';

/** How many bytes follow the first of a letter in UTF-8; null where none can begin so. */
function followersOf(first: number): number | null {
  if (first < 0x80) return 0;
  if (first >= 0xc2 && first <= 0xdf) return 1;
  if (first >= 0xe0 && first <= 0xef) return 2;
  return first >= 0xf0 && first <= 0xf4 ? 3 : null;
}

/** Whether bytes beyond ASCII stand there, and none of them makes a letter of UTF-8. */
function isOneByteEach(bytes: Uint8Array): boolean {
  let isBeyond = false;
  for (let at = 0; at < bytes.length; at++) {
    const first = bytes[at] ?? 0;
    if (first < 0x80) continue;
    isBeyond = true;
    const followers = followersOf(first);
    if (followers === null) continue;
    let isLetter = true;
    for (let i = 1; i <= followers; i++) {
      const next = bytes[at + i];
      // Cut off at the end of a file, it is a broken letter of UTF-8 and none of another writing.
      if (next === undefined) return false;
      isLetter &&= next >= 0x80 && next <= 0xbf;
    }
    if (isLetter) return false;
  }
  return isBeyond;
}

/**
 * How a file's bytes are written: by its byte order mark, else as UTF-8, else one byte a letter as older programs of
 * Western Europe and America write. Digits and units but for the micro sign are the same in the last two.
 * @param bytes  the whole file
 * @returns  `windows-1252` only where no byte beyond ASCII belongs to a letter of UTF-8
 * @source   The Unicode Standard, "Byte order mark" and table 3-7, "Well-Formed UTF-8 Byte Sequences"; WHATWG Encoding
 *           Standard, windows-1252
 */
export function encodingOf(bytes: Uint8Array): Encoding {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return 'utf-16le';
  if (first === 0xfe && second === 0xff) return 'utf-16be';
  return isOneByteEach(bytes) ? 'windows-1252' : 'utf-8';
}

/**
 * What a person should know of how a file was written.
 * @returns  null where there is nothing to say
 * @source   contract, section 1: nothing is guessed silently
 */
export const encodingNote = (encoding: Encoding): string | null =>
  encoding === 'windows-1252'
    ? 'the file is not in UTF-8; its letters were read as those of Windows-1252 (Latin-1)'
    : null;
