/** A run of ones this long says that the number follows as it is, so that one that is far off takes no endless run. */
const ESCAPE = 24;
const PLAIN_BITS = 53;
const WIDTH_BITS = 5;
const WIDEST = 2 ** WIDTH_BITS - 1;

/** How many bits all of them take, at a width. */
function bitsAt(values: readonly number[], width: number): number {
  const step = 2 ** width;
  let bits = 0;
  for (const value of values) {
    const quotient = Math.floor(value / step);
    bits += quotient >= ESCAPE ? ESCAPE + PLAIN_BITS : quotient + 1 + width;
  }
  return bits;
}

/** The width at which they take the fewest; the least such. */
function bestWidth(values: readonly number[]): number {
  let best = 0;
  let fewest = bitsAt(values, 0);
  for (let width = 1; width <= WIDEST; width += 1) {
    const bits = bitsAt(values, width);
    if (bits < fewest) {
      fewest = bits;
      best = width;
    }
  }
  return best;
}

/**
 * Lists of mostly small numbers in few bits: each as a run of ones and a rest of fixed width, the width chosen for each
 * list so that it takes the fewest bits.
 * @param lists  whole numbers from 0 to 2^53 - 1
 * @returns  the bits, the last byte filled up with zeros; equal lists give equal bytes
 * @throws   RangeError for a number that is not one of these
 * @source   R. F. Rice, "Some Practical Universal Noiseless Coding Techniques", JPL Publication 79-22 (1979), from memory
 */
export function packRice(lists: readonly (readonly number[])[]): Uint8Array {
  const bytes: number[] = [];
  let byte = 0;
  let filled = 0;
  const bit = (one: boolean): void => {
    byte = byte * 2 + (one ? 1 : 0);
    filled += 1;
    if (filled < 8) return;
    bytes.push(byte);
    byte = 0;
    filled = 0;
  };
  const plain = (value: number, width: number): void => {
    for (let unit = 2 ** (width - 1); unit >= 1; unit /= 2) bit(Math.floor(value / unit) % 2 === 1);
  };
  for (const values of lists) {
    for (const value of values)
      if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${value} can't be packed`);
    const width = bestWidth(values);
    plain(width, WIDTH_BITS);
    for (const value of values) {
      const quotient = Math.floor(value / 2 ** width);
      for (let i = 0; i < Math.min(quotient, ESCAPE); i += 1) bit(true);
      if (quotient >= ESCAPE) plain(value, PLAIN_BITS);
      else {
        bit(false);
        plain(value % 2 ** width, width);
      }
    }
  }
  while (filled > 0) bit(false);
  return Uint8Array.from(bytes);
}

/**
 * The lists that were packed, exactly.
 * @param counts  how many numbers each has
 * @throws  RangeError when the bytes are damaged, or too few or too many for so many numbers
 * @source  as `packRice`
 */
export function unpackRice(bytes: Uint8Array, counts: readonly number[]): readonly (readonly number[])[] {
  const bits = new BitReader(bytes);
  const lists = counts.map((count) => listOf(bits, count));
  bits.end();
  return lists;
}

/**
 * The first of the lists that were packed; what comes after it is not looked at.
 * @param count  how many numbers it has
 * @throws  RangeError when the bytes end before it does
 * @source  as `packRice`
 */
export const unpackFirst = (bytes: Uint8Array, count: number): readonly number[] =>
  listOf(new BitReader(bytes), count);

function listOf(bits: BitReader, count: number): readonly number[] {
  const width = bits.plain(WIDTH_BITS);
  const step = 2 ** width;
  const values = new Array<number>(count);
  for (let i = 0; i < count; i += 1) {
    const quotient = bits.ones(ESCAPE);
    values[i] = quotient < ESCAPE ? quotient * step + bits.plain(width) : bits.plain(PLAIN_BITS);
  }
  return values;
}

/** Bits from the highest of the first byte on. Every sweep of an archive comes through here when all are looked at. */
class BitReader {
  private readonly bytes: Uint8Array;
  private at = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
  }

  private tooEarly(): never {
    throw new RangeError('the packed readings end too early');
  }

  /** A number of so many bits, at most 53. */
  plain(width: number): number {
    const { bytes } = this;
    let at = this.at;
    const to = at + width;
    if (to > bytes.length * 8) this.tooEarly();
    let value = 0;
    while (at < to) {
      // As many bits as this byte still has, or as are wanted.
      const left = 8 - (at & 7);
      const take = Math.min(left, to - at);
      const part = ((bytes[at >> 3] as number) >> (left - take)) & ((1 << take) - 1);
      value = value * (1 << take) + part;
      at += take;
    }
    this.at = at;
    return value;
  }

  /** How many ones come before the next zero, which is passed over; at most so many, and then no zero is looked for. */
  ones(most: number): number {
    const { bytes } = this;
    const end = bytes.length * 8;
    let at = this.at;
    let count = 0;
    while (count < most) {
      if (at >= end) this.tooEarly();
      const one = (bytes[at >> 3] as number) & (0x80 >> (at & 7));
      at += 1;
      if (one === 0) break;
      count += 1;
    }
    this.at = at;
    return count;
  }

  /** Nothing is left but zeros that fill the last byte up. */
  end(): void {
    const left = this.bytes.length * 8 - this.at;
    if (left >= 8 || this.plain(left) !== 0)
      throw new RangeError('the packed readings go on after their end');
  }
}
