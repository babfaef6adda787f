import { done, type Result, refuse } from '../result.ts';

/** What is known of a block from its first bytes: how many bytes of it there will be, or that it is none. */
export type BlockStart =
  | Readonly<{ kind: 'more' }>
  | Readonly<{ kind: 'not-a-block' }>
  | Readonly<{ kind: 'block'; headerBytes: number; dataBytes: number }>;

const HASH = 0x23;
const digit = (byte: number | undefined): number | null =>
  byte !== undefined && byte >= 0x30 && byte <= 0x39 ? byte - 0x30 : null;

/**
 * Reads the header of a definite-length block: `#`, one digit that says how many digits follow, and those digits, the
 * length in bytes. `#0` (of no definite length) is not taken: where it ends would not be certain.
 * @param bytes      what has come so far
 * @param mostBytes  a longer block is none: the header is damaged
 * @returns  `more` while the header may still become whole
 * @source   IEEE 488.2, 8.7.9, definite length arbitrary block response data
 */
export function blockStart(bytes: Uint8Array, mostBytes: number): BlockStart {
  if (bytes.length === 0) return { kind: 'more' };
  if (bytes[0] !== HASH) return { kind: 'not-a-block' };
  if (bytes.length === 1) return { kind: 'more' };
  const digits = digit(bytes[1]);
  if (digits === null || digits === 0) return { kind: 'not-a-block' };
  let dataBytes = 0;
  for (let i = 0; i < digits; i += 1) {
    if (2 + i >= bytes.length) return { kind: 'more' };
    const next = digit(bytes[2 + i]);
    if (next === null) return { kind: 'not-a-block' };
    dataBytes = dataBytes * 10 + next;
  }
  return dataBytes > mostBytes
    ? { kind: 'not-a-block' }
    : { kind: 'block', headerBytes: 2 + digits, dataBytes };
}

/**
 * The numbers of a block.
 * @param data       the block's bytes without its header
 * @param number     IEEE 754 of 32 or 64 bits
 * @param byteOrder  `big`: the highest byte first (SCPI FORMat:BORDer NORMal); `little`: SWAPped
 * @param points     how many numbers were asked for
 * @returns  exactly that many finite numbers in the meter's own unit, or why the block holds no such trace
 * @source   SCPI-1999, volume 2, FORMat[:DATA] REAL and FORMat:BORDer; IEEE 754
 */
export function readTraceBlock(
  data: Uint8Array,
  number: 'real32' | 'real64',
  byteOrder: 'big' | 'little',
  points: number,
): Result<readonly number[], 'not-a-trace'> {
  const width = number === 'real32' ? 4 : 8;
  if (data.length !== width * points)
    return refuse('not-a-trace', 'trace', `${data.length} bytes came, ${width * points} were asked for`);
  const view = new DataView(data.buffer, data.byteOffset, data.byteLength);
  const little = byteOrder === 'little';
  const amounts: number[] = [];
  for (let i = 0; i < points; i += 1) {
    const amount = width === 4 ? view.getFloat32(i * 4, little) : view.getFloat64(i * 8, little);
    if (!Number.isFinite(amount))
      return refuse('not-a-trace', `trace, point ${i + 1}`, 'it is no number; check the byte order');
    amounts.push(amount);
  }
  return done(amounts);
}
