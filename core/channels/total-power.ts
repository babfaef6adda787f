import { LEVEL, type Unfit, unfit } from '../checked.ts';
import { done, type Result, refuse } from '../result.ts';
import { type LineUpEntry, offsetOf } from './line-up.ts';
import { totalFromPerSixMhzDbmv } from './ofdm-power.ts';

/**
 * The power of a whole line-up at a place where the analog design line is known.
 * @param entries       what is carried
 * @param analogDbmvAt  the analog design line there: MHz to dBmV
 * @returns  dBmV. An analog carrier counts at its level, which is that of its sync tips: the average of the picture is
 *           lower, so the sum is an upper bound as far as there are analog carriers. An OFDM signal counts over its
 *           whole width. A refusal when the line-up is empty or has a number that makes no sense.
 * @source   Hranac, "Broadband: Total Power": powers add, n equal levels + 10 log n
 */
export function totalPowerDbmv(
  entries: readonly LineUpEntry[],
  analogDbmvAt: (frequencyMhz: number) => number,
): Result<number, Unfit | 'empty-line-up'> {
  if (entries.length === 0) return refuse('empty-line-up', 'the line-up', 'add a channel first');
  let power = 0;
  for (const entry of entries) {
    const offsetDb = offsetOf(entry);
    if (!offsetDb.ok) return offsetDb;
    const analogDbmv = analogDbmvAt(entry.frequencyMhz);
    const wrong = unfit([[`design level at ${entry.frequencyMhz} MHz`, analogDbmv, LEVEL]]);
    if (wrong !== null) return wrong;
    const levelDbmv = analogDbmv + offsetDb.value;
    const whole = entry.kind === 'ofdm' ? totalFromPerSixMhzDbmv(levelDbmv, entry.widthMhz) : done(levelDbmv);
    if (!whole.ok) return whole;
    power += 10 ** (whole.value / 10);
  }
  return done(10 * Math.log10(power));
}
