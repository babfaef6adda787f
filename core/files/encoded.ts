import type { Encoding } from './encoding.ts';

/** What the bytes 0x80 to 0x9F are in windows-1252; null for those five that stand for themselves. */
const upper = [
  0x20ac, 0, 0x201a, 0x0192, 0x201e, 0x2026, 0x2020, 0x2021, 0x02c6, 0x2030, 0x0160, 0x2039, 0x0152, 0,
  0x017d, 0, 0, 0x2018, 0x2019, 0x201c, 0x201d, 0x2022, 0x2013, 0x2014, 0x02dc, 0x2122, 0x0161, 0x203a,
  0x0153, 0, 0x017e, 0x0178,
];
const byteOf = new Map(upper.map((code, i) => [code === 0 ? 0x80 + i : code, 0x80 + i]));

function oneByteEach(text: string): Uint8Array | null {
  const bytes = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    const byte = code < 0x80 || (code >= 0xa0 && code <= 0xff) ? code : byteOf.get(code);
    if (byte === undefined) return null;
    bytes[i] = byte;
  }
  return bytes;
}

function twoBytesEach(text: string, highFirst: boolean): Uint8Array {
  const bytes = new Uint8Array(text.length * 2);
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    bytes[2 * i] = highFirst ? code >> 8 : code & 0xff;
    bytes[2 * i + 1] = highFirst ? code & 0xff : code >> 8;
  }
  return bytes;
}

function inUtf8(text: string): Uint8Array {
  const bytes = new Uint8Array(text.length * 3);
  let at = 0;
  const put = (byte: number) => {
    bytes[at++] = byte;
  };
  for (const letter of text) {
    const code = letter.codePointAt(0) ?? 0;
    if (code < 0x80) {
      put(code);
      continue;
    }
    if (code >= 0x800) {
      if (code >= 0x10000) {
        put(0xf0 | (code >> 18));
        put(0x80 | ((code >> 12) & 0x3f));
      } else put(0xe0 | (code >> 12));
      put(0x80 | ((code >> 6) & 0x3f));
    } else put(0xc0 | (code >> 6));
    put(0x80 | (code & 0x3f));
  }
  return bytes.slice(0, at);
}

/**
 * The bytes of a text as a file has them; a byte order mark is a letter of the text.
 * @param text      as decoded with its byte order mark kept
 * @param encoding  in which it is written
 * @returns  null where the text has a letter that the encoding has not, or half of one
 * @source   WHATWG Encoding Standard, windows-1252; The Unicode Standard, UTF-8 and UTF-16
 */
export function encoded(text: string, encoding: Encoding): Uint8Array | null {
  if (/\p{Surrogate}/u.test(text)) return null;
  if (encoding === 'windows-1252') return oneByteEach(text);
  return encoding === 'utf-8' ? inUtf8(text) : twoBytesEach(text, encoding === 'utf-16be');
}

/**
 * In which encoding a file can be kept as its text: the one it is written in, where that gives every byte again.
 * @param bytes     the whole file
 * @param text      decoded from it, its byte order mark kept
 * @param encoding  in which it was read
 * @returns  null where a byte would be another, so that the text alone is not the file
 * @source   contract, section 1; common practice for proving it: both ways, byte by byte
 */
export function keptAs(bytes: Uint8Array, text: string, encoding: Encoding): Encoding | null {
  const again = encoded(text, encoding);
  if (again === null || again.length !== bytes.length) return null;
  return again.every((byte, i) => byte === bytes[i]) ? encoding : null;
}
