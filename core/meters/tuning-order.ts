/**
 * The order in which a plan settles quickest: rising, so that the meter never tunes farther than to the next channel and
 * crosses the band once. Always from the low end, though the top may be nearer after another sweep: that costs one long
 * step, and two sweeps of one plan can be laid side by side row by row.
 * @param frequenciesMhz  any order; what is planned twice stays planned twice
 * @returns  the same frequencies, rising
 * @source   common practice, no published source
 */
export const tuningOrder = (frequenciesMhz: readonly number[]): readonly number[] =>
  [...frequenciesMhz].sort((a, b) => a - b);
