import { describe, expect, it } from 'vitest';
import { lastRoundOf, watchTurn } from '../../../core/watch/schedule.ts';

const HOUR = 3_600_000;
const day = { startedAtMs: 1000, everyMs: 6 * HOUR, forMs: 24 * HOUR };
const endless = { startedAtMs: 0, everyMs: 10_000, forMs: null };

describe('the rounds of a watch', () => {
  // The 24-hour test at six-hour steps: common practice, no published source.
  it('are five in a day at six-hour steps', () => {
    expect(lastRoundOf(day)).toBe(4);
    expect(lastRoundOf({ ...day, everyMs: 7 * HOUR })).toBe(3);
    expect(lastRoundOf(endless)).toBeNull();
  });

  it('come when they are due', () => {
    expect(watchTurn(day, 0, 1000)).toEqual({ missed: 0, round: 0, waitMs: 0 });
    expect(watchTurn(day, 1, 1000 + HOUR)).toEqual({ missed: 0, round: 1, waitMs: 5 * HOUR });
    expect(watchTurn(day, 1, 1000 + 7 * HOUR)).toEqual({ missed: 0, round: 1, waitMs: 0 });
  });

  it('are missed for good when the next one is due', () => {
    expect(watchTurn(endless, 3, 59_999)).toEqual({ missed: 2, round: 5, waitMs: 0 });
    expect(watchTurn(endless, 3, 30_000)).toEqual({ missed: 0, round: 3, waitMs: 0 });
  });

  it('end with the last one, read or not', () => {
    expect(watchTurn(day, 5, 1000 + 24 * HOUR)).toEqual({ missed: 0, round: null, waitMs: 0 });
    expect(watchTurn(day, 3, 1000 + 25 * HOUR)).toEqual({ missed: 1, round: 4, waitMs: 0 });
    expect(watchTurn(day, 3, 1000 + 900 * HOUR)).toEqual({ missed: 2, round: null, waitMs: 0 });
  });

  it('go on when the clock is set back: nobody waits longer than a period', () => {
    expect(watchTurn(endless, 50, 0)).toEqual({ missed: 0, round: 50, waitMs: 10_000 });
    expect(watchTurn(endless, 0, -99_999)).toEqual({ missed: 0, round: 0, waitMs: 10_000 });
  });
});
