export type FrequencyUnit = 'Hz' | 'kHz' | 'MHz' | 'GHz';

/** The highest frequency that a plan, a sweep or a meter of this program knows. */
export const TOP_OF_ALL_MHZ = 3000;

const perMhz: Readonly<Record<FrequencyUnit, number>> = { Hz: 1e6, kHz: 1e3, MHz: 1, GHz: 1e-3 };
const spellings = new Map<string, FrequencyUnit>([
  ['hz', 'Hz'],
  ['hertz', 'Hz'],
  ['kilohertz', 'kHz'],
  ['megahertz', 'MHz'],
  ['gigahertz', 'GHz'],
  ['khz', 'kHz'],
  ['mhz', 'MHz'],
  ['ghz', 'GHz'],
  // As most files write them.
  ['MHz', 'MHz'],
  ['Hz', 'Hz'],
]);

/**
 * A frequency as written to MHz.
 * @param written  in the unit given
 * @returns  MHz, to a thousandth of a hertz
 * @source   SI prefixes
 */
export function mhzFromWritten(written: number, unit: FrequencyUnit): number {
  const frequencyMhz = written / perMhz[unit];
  // A whole number of hertz is as near as it can be; only other ones have a tail to cut.
  return Math.round(frequencyMhz * 1e6) / 1e6 === frequencyMhz
    ? frequencyMhz
    : Number(frequencyMhz.toFixed(9));
}

/**
 * A unit as written in a cell.
 * @returns  the unit of a frequency, or null when it is none
 * @source   contract, section 1
 */
export const frequencyUnitOf = (written: string): FrequencyUnit | null =>
  spellings.get(written) ?? spellings.get(written.toLowerCase()) ?? null;

/**
 * The one unit in which every bare number is a frequency between 1 and 3000 MHz.
 * @param written  bare numbers above 0
 * @returns  Hz, kHz or MHz; null when none fits all, or more than one does
 * @source   common practice, no published source
 */
export function unitOfBare(written: readonly number[]): FrequencyUnit | null {
  if (written.length === 0) return null;
  const fitting = (['Hz', 'kHz', 'MHz'] as const).filter((unit) =>
    written.every((value) => {
      const frequencyMhz = mhzFromWritten(value, unit);
      return frequencyMhz >= 1 && frequencyMhz <= TOP_OF_ALL_MHZ;
    }),
  );
  return fitting.length === 1 ? (fitting[0] ?? null) : null;
}
