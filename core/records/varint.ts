const MOST = Number.MAX_SAFE_INTEGER;

/** Whole numbers to bytes: seven bits a byte, the low ones first, the top bit on all but the last. */
export type VarintWriter = Readonly<{
  /** @param value  whole, from 0 to 2^53 - 1 */
  unsigned(value: number): void;
  /** @param value  whole, at most 2^52 - 1 either way; small ones of either sign take little room */
  signed(value: number): void;
  bytes(): Uint8Array;
}>;

/**
 * @returns  a writer that begins with nothing
 * @throws   RangeError, from its methods, for what is no whole number or too large
 * @source   LEB128 and zigzag, as in the published encoding of Protocol Buffers
 */
export function createVarintWriter(): VarintWriter {
  const bytes: number[] = [];
  const unsigned = (value: number): void => {
    if (!Number.isSafeInteger(value) || value < 0) throw new RangeError(`${value} can't be packed`);
    let left = value;
    // Not by bit operators: they know 32 bits only.
    while (left >= 0x80) {
      bytes.push((left % 0x80) + 0x80);
      left = Math.floor(left / 0x80);
    }
    bytes.push(left);
  };
  return {
    unsigned,
    signed(value) {
      if (!Number.isSafeInteger(value)) throw new RangeError(`${value} can't be packed`);
      unsigned(value < 0 ? -2 * value - 1 : 2 * value);
    },
    bytes: () => Uint8Array.from(bytes),
  };
}

export type VarintReader = Readonly<{
  unsigned(): number;
  signed(): number;
  /** Whether every byte was read. */
  atEnd(): boolean;
  /** The bytes that were not read yet. */
  rest(): Uint8Array;
}>;

/**
 * @param bytes  what a `VarintWriter` wrote
 * @returns  a reader at its beginning
 * @throws   RangeError, from its methods, when the bytes end too early or hold what no writer wrote
 * @source   as `createVarintWriter`
 */
export function createVarintReader(bytes: Uint8Array): VarintReader {
  let at = 0;
  const unsigned = (): number => {
    let value = 0;
    let unit = 1;
    for (;;) {
      const byte = bytes[at];
      if (byte === undefined) throw new RangeError('the packed readings end too early');
      at += 1;
      value += (byte & 0x7f) * unit;
      if (value > MOST) throw new RangeError('a packed number is too large');
      if (byte < 0x80) {
        // Another spelling of the same number would be another form of the same readings.
        if (byte === 0 && unit > 1) throw new RangeError('a packed number is padded');
        return value;
      }
      unit *= 0x80;
    }
  };
  return {
    unsigned,
    signed() {
      const value = unsigned();
      return value % 2 === 0 ? value / 2 : -((value + 1) / 2);
    },
    atEnd: () => at === bytes.length,
    rest: () => bytes.subarray(at),
  };
}
