import type { Trend } from './direction.ts';

/** What a hand on the control should do now. */
export type Way = 'go-on' | 'turn-back' | 'turn-up' | 'turn-down' | 'leave-it' | 'wait';

/**
 * Which way a hand should turn a control, from where the level lies and where it is going.
 * @param trend        dB over seconds, or null while there are too few readings
 * @param offDb        level less target, dB; infinite with its sign where an end of the control is looked for: above 0 for
 *                     the low end, below 0 for the high end
 * @param toleranceDb  how near is near enough, dB, 0 or more
 * @returns  `leave-it` inside the tolerance; while the level moves, whether that is the right way; else which way to turn
 * @throws   RangeError on a distance or a tolerance that is no number
 * @source   common practice, no published source
 */
export function whichWay(trend: Trend | null, offDb: number, toleranceDb: number): Way {
  if (Number.isNaN(offDb) || !(toleranceDb >= 0)) throw new RangeError(`${offDb} dB off, ±${toleranceDb} dB`);
  if (Math.abs(offDb) <= toleranceDb) return 'leave-it';
  if (trend === null) return 'wait';
  if (trend.direction === 'steady') return offDb > 0 ? 'turn-down' : 'turn-up';
  return (trend.direction === 'falling') === offDb > 0 ? 'go-on' : 'turn-back';
}

const words: Record<Way, string> = {
  'go-on': 'go on this way',
  'turn-back': 'turn back',
  'turn-up': 'turn up',
  'turn-down': 'turn down',
  'leave-it': 'leave it there',
  wait: 'reading',
};

/**
 * The same as it is said beside the control.
 * @returns  "falling: go on this way", "steady: turn up", "leave it there", "reading" while there is too little to say
 * @source   common practice, no published source
 */
export function wayWords(trend: Trend | null, way: Way): string {
  return trend === null || way === 'wait' ? words[way] : `${trend.direction}: ${words[way]}`;
}
