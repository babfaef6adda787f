import type { Basis } from './basis.ts';

/** Below the maximum gain, at the highest frequency. Common practice, no published source. */
const RESERVES = [
  { topMhz: 750, reserveDb: 3.5 },
  { topMhz: 870, reserveDb: 4.0 },
  { topMhz: 1000, reserveDb: 4.5 },
] as const;

/** Two frequencies closer than this are one. */
const SAME_MHZ = 1e-9;

export type Reserve = Readonly<{ reserveDb: number; basis: Basis }>;

/**
 * How far below the maximum gain a gain control is set, so that it can still turn up.
 * @param topMhz  the plant's highest frequency, MHz, above 0 and finite
 * @returns  dB at that frequency: 3.5 at 750 MHz, 4.0 at 870, 4.5 at 1000; straight lines between them; beyond them the
 *           end slope goes on
 * @throws   RangeError on a frequency that is none: `checkedGainControl` has seen to that
 * @source   common practice, no published source
 */
export function reserveAt(topMhz: number): Reserve {
  if (!(topMhz > 0) || !Number.isFinite(topMhz)) throw new RangeError(`${topMhz} MHz is no top frequency`);
  const [first, middle, last] = RESERVES;
  const named = RESERVES.find((rule) => Math.abs(rule.topMhz - topMhz) <= SAME_MHZ);
  if (named !== undefined) return { reserveDb: named.reserveDb, basis: 'practice' };
  const [from, to] = topMhz < middle.topMhz ? [first, middle] : [middle, last];
  const slopeDbPerMhz = (to.reserveDb - from.reserveDb) / (to.topMhz - from.topMhz);
  const beyond = topMhz < first.topMhz || topMhz > last.topMhz;
  return {
    reserveDb: from.reserveDb + (topMhz - from.topMhz) * slopeDbPerMhz,
    basis: beyond ? 'extrapolated' : 'interpolated',
  };
}
