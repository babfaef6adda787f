import type { Trend } from '../trend/direction.ts';
import { trendWords } from '../trend/words.ts';
import { MOVED_DB } from './proof.ts';

/**
 * What to do while a control's low end is looked for. In automatic the loop works against the hand, so the words go by the
 * direction alone: no reading can tell a control at its end from a hand that rests, and none is taken as a proof here.
 * @param trend  dB over seconds, or null while there are too few readings
 * @param fellDb  how far the level has been below its highest since the hand began, dB, 0 or more
 * @returns  "falling 0.2 dB in 8 s: go on this way"; for a rising level, that the loop brings it back; for a steady one
 *           what it would mean, once the hand has lowered it at all; without a full stop
 * @source   core/trend; what to do: common practice, no published source
 */
export function lowEndWords(trend: Trend | null, fellDb: number): string {
  const seen = trendWords(trend);
  if (trend === null) return seen;
  switch (trend.direction) {
    case 'falling':
      return `${seen}: go on this way`;
    case 'rising':
      return `${seen}: in automatic the loop brings it back, go on down`;
    case 'steady':
      if (fellDb < MOVED_DB) return `${seen}: turn down`;
      return `${seen}: if the hand still turns down, it goes no further`;
  }
}
