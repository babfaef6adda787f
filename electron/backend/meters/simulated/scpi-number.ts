/** A parameter as a number, or the code of what is wrong with it. */
export type NumberRead = Readonly<{ ok: true; amount: number }> | Readonly<{ ok: false; code: number }>;

const DATA_TYPE_ERROR = -104;
const INVALID_CHARACTER_IN_NUMBER = -121;
const INVALID_SUFFIX = -131;
const OUT_OF_RANGE = -222;

/** In SCPI, MHZ is mega, though M alone is milli. */
const multipliers: ReadonlyMap<string, number> = new Map([
  ['', 1],
  ['HZ', 1],
  ['KHZ', 1e3],
  ['MHZ', 1e6],
  ['MAHZ', 1e6],
  ['GHZ', 1e9],
]);

const words: ReadonlyMap<string, 'lowest' | 'highest' | 'start'> = new Map([
  ['MIN', 'lowest'],
  ['MINIMUM', 'lowest'],
  ['MAX', 'highest'],
  ['MAXIMUM', 'highest'],
  ['DEF', 'start'],
  ['DEFAULT', 'start'],
]);

/** A frequency in Hz (NRf with an optional unit, or MINimum, MAXimum, DEFault) within the instrument's range. */
export function readHz(
  parameter: string,
  range: Readonly<{ lowest: number; highest: number; start: number }>,
): NumberRead {
  const word = words.get(parameter.toUpperCase());
  if (word !== undefined) return { ok: true, amount: range[word] };
  const [, digits, suffix = ''] =
    /^([+-]?(?:\d+\.?\d*|\.\d+)(?:\s*[Ee]\s*[+-]?\d+)?)\s*([A-Za-z]*)$/.exec(parameter) ?? [];
  if (digits === undefined) {
    return { ok: false, code: /^[+-]?\.?\d/.test(parameter) ? INVALID_CHARACTER_IN_NUMBER : DATA_TYPE_ERROR };
  }
  const multiplier = multipliers.get(suffix.toUpperCase());
  if (multiplier === undefined) return { ok: false, code: INVALID_SUFFIX };
  const amount = Number(digits.replaceAll(/\s/g, '')) * multiplier;
  const inside = amount >= range.lowest && amount <= range.highest;
  return inside ? { ok: true, amount } : { ok: false, code: OUT_OF_RANGE };
}

/** A whole number of a status register, 0 to 255. */
export const readByte = (parameter: string): NumberRead => readWhole(parameter, 0, 255);

/** A whole number between two others. */
export function readWhole(parameter: string, least: number, most: number): NumberRead {
  if (!/^[+-]?(\d+\.?\d*|\.\d+)([Ee][+-]?\d+)?$/.test(parameter)) return { ok: false, code: DATA_TYPE_ERROR };
  const amount = Math.round(Number(parameter));
  return amount >= least && amount <= most ? { ok: true, amount } : { ok: false, code: OUT_OF_RANGE };
}
