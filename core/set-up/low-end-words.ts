import type { Trend } from '../trend/direction.ts';
import { AT_END_S, MOVED_DB, STEADY_WITHIN_DB } from './proof.ts';

/**
 * What to do while a control's low end is looked for, beside the words of the trend. In automatic the loop works against
 * the hand, so the advice goes by the direction alone: no reading can tell a control at its end from a hand that rests, and
 * none is taken as a proof here.
 * @param trend   dB over seconds, or null while there are too few readings
 * @param fellDb  how far the level has been below its highest since the hand began, dB, 0 or more
 * @returns  "go on this way" while it falls; that the loop brings it back while it rises; for a level that stands still for
 *           long enough, after the hand has lowered it at all, what that would mean; without a full stop
 * @source   core/trend; what to do: common practice, no published source
 */
export function lowEndAdvice(trend: Trend | null, fellDb: number): string {
  if (trend === null) return '';
  switch (trend.direction) {
    case 'falling':
      return 'go on this way';
    case 'rising':
      return 'in automatic the loop brings it back: go on down';
    case 'steady':
      if (fellDb < MOVED_DB) return 'turn down';
      // A trend that is steady only because it is young says nothing about an end.
      return trend.overS >= AT_END_S && (trend.lessThanDb ?? 0) <= STEADY_WITHIN_DB
        ? 'if the hand still turns down, it goes no further'
        : 'go on down';
  }
}
