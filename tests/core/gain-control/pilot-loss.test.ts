import { describe, expect, it } from 'vitest';
import { type MaybeLevel, pilotLoss } from '../../../core/gain-control/pilot-loss.ts';
import { chanceFrom } from '../../../core/season/chance.ts';
import {
  moduleAfter,
  moduleLater,
  modulePositionDb,
  settledModule,
} from '../../../core/simulate/gain-module.ts';

const SET_DBMV = 44;
const UP_DB = 4;
const readingsOf = (levelDbmv: (atS: number) => number | null, seconds: number, seed = 1): MaybeLevel[] => {
  const chance = chanceFrom(seed);
  return Array.from({ length: seconds * 10 }, (_, k) => {
    const level = levelDbmv(k / 10);
    return { atS: k / 10, levelDbmv: level === null ? null : level + 0.1 * chance.normal() };
  });
};
/** A channel beside the pilot while the simulated module hears nothing from second 5 on. */
const deaf = moduleAfter(
  settledModule({ upDb: UP_DB, downDb: 6 }, 0, 5000),
  { act: 'pilot', present: false },
  0,
);
const runningUp = (atS: number) => SET_DBMV + modulePositionDb(moduleLater(deaf, 0, atS * 1000));
const verdictOf = (readings: MaybeLevel[], watched: 'pilot' | 'channel', upDb: number | null = UP_DB) =>
  pilotLoss(readings, watched, SET_DBMV, upDb).verdict;

// Common practice, no published source: a control that hears nothing turns up to its end.
describe('the loss of a pilot', () => {
  it('is not called while the level is held, whatever the seed', () => {
    for (let seed = 0; seed < 200; seed++) {
      expect(
        verdictOf(
          readingsOf(() => SET_DBMV, 20, seed),
          'pilot',
        ),
      ).toBe('held');
      expect(
        verdictOf(
          readingsOf(() => SET_DBMV + 1, 20, seed),
          'channel',
        ),
      ).toBe('held');
    }
  });

  it('shows at the pilot at once', () => {
    const gone = readingsOf((atS) => (atS < 9.7 ? SET_DBMV : null), 10);
    expect(pilotLoss(gone, 'pilot', SET_DBMV, null)).toMatchObject({
      verdict: 'lost',
      words: expect.stringContaining('Switch to manual'),
    });
    expect(
      verdictOf(
        readingsOf((atS) => (atS < 9.7 ? SET_DBMV : 20), 10),
        'pilot',
      ),
    ).toBe('lost');
    // One empty reading is a meter's hiccup.
    expect(
      verdictOf(
        readingsOf((atS) => (atS < 9.9 ? SET_DBMV : null), 10),
        'pilot',
      ),
    ).toBe('held');
  });

  it('shows at another channel as a climb, and as a loss at the end of the control', () => {
    expect(verdictOf(readingsOf(runningUp, 5), 'channel')).toBe('held');
    expect(verdictOf(readingsOf(runningUp, 9), 'channel')).toBe('suspected');
    expect(verdictOf(readingsOf(runningUp, 40), 'channel')).toBe('lost');
    expect(verdictOf(readingsOf(runningUp, 40), 'channel', null)).toBe('suspected');
  });

  it('says nothing from too few readings', () => {
    expect(verdictOf([], 'pilot')).toBe('held');
    expect(
      verdictOf(
        readingsOf(() => null, 20),
        'channel',
      ),
    ).toBe('held');
  });
});
