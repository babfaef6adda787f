import type { Position } from '../files/station.ts';
import { flatBeyondEnds } from '../interpolate.ts';

/**
 * The measured loss of one value of a plug-in, where a curve for it was given.
 * @param position      with its `curves`, points of [MHz, dB]
 * @param valueDb       dB, as its label says; a curve's key is read as a number
 * @param frequencyMhz  MHz
 * @returns  dB, straight between points and held flat beyond the ends; null where there is no curve for this value
 * @source   contract, section 2, `curves`; held flat beyond the ends: common practice, no published source
 */
export function measuredLossDb(position: Position, valueDb: number, frequencyMhz: number): number | null {
  if (position.curves === undefined) return null;
  const key = Object.keys(position.curves).find((name) => name.trim() !== '' && Number(name) === valueDb);
  const points = key === undefined ? undefined : position.curves[key];
  if (points === undefined) return null;
  const rising = points.every((point, i) => i === 0 || (points[i - 1]?.[0] ?? 0) <= point[0]);
  return flatBeyondEnds(rising ? points : points.toSorted((a, b) => a[0] - b[0]), frequencyMhz);
}
