/**
 * The order in which a plan settles quickest: from the end that lies nearer to where the meter is tuned, to the other, so
 * that it never tunes farther than to the next channel and crosses the band once.
 * @param frequenciesMhz  any order; what is planned twice stays planned twice
 * @param tunedMhz        where the meter is now; null where nobody knows
 * @returns  the same frequencies, rising or falling
 * @source   common practice, no published source
 */
export function tuningOrder(frequenciesMhz: readonly number[], tunedMhz: number | null): readonly number[] {
  const rising = [...frequenciesMhz].sort((a, b) => a - b);
  const [lowestMhz, highestMhz] = [rising[0], rising.at(-1)];
  if (tunedMhz === null || lowestMhz === undefined || highestMhz === undefined) return rising;
  const nearerToTop = Math.abs(highestMhz - tunedMhz) < Math.abs(tunedMhz - lowestMhz);
  return nearerToTop ? rising.reverse() : rising;
}
