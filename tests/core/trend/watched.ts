import { chanceFrom } from '../../../core/season/chance.ts';
import type { Trend } from '../../../core/trend/direction.ts';
import { trendOf, WINDOWS_S } from '../../../core/trend/direction.ts';
import type { WatchedLevel } from '../../../core/trend/slope.ts';

const longestS = WINDOWS_S.at(-1) ?? 0;

/** A level over time in white noise of 0.3 dB, read to tenths, watched reading by reading. */
export function* watched(
  levelDbmv: (atS: number) => number,
  { seed, perSecond, seconds }: { seed: number; perSecond: number; seconds: number },
): Generator<{ atS: number; trend: Trend | null }> {
  const chance = chanceFrom(seed);
  const readings: WatchedLevel[] = [];
  for (let k = 0; k < seconds * perSecond; k++) {
    const atS = k / perSecond;
    const noisy = levelDbmv(atS) + 0.3 * chance.normal();
    readings.push({ atS, levelDbmv: Math.round(noisy * 10) / 10 });
    if (readings.length > longestS * perSecond + 1) readings.shift();
    yield { atS, trend: trendOf(readings) };
  }
}
