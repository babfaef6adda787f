/**
 * Whether a deviation is one that the design allows. A billionth of a dB is rounding: exactly at the tolerance is inside.
 * @param deviationDb  dB, with its sign
 * @param toleranceDb  dB, above 0
 * @source   contract, section 2, `toleranceDb`
 */
export const isWithinTolerance = (deviationDb: number, toleranceDb: number): boolean =>
  Math.abs(deviationDb) <= toleranceDb + 1e-9;
