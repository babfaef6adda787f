import { describe, expect, it } from 'vitest';
import { seasonDays } from '../../../core/season/days.ts';
import { seasonRow } from '../../../core/season/rows.ts';
import { harbourPlan } from './harbour-station.ts';

const plan = harbourPlan({ upDb: 4, downDb: 1.5 });
const day = (date: string, minC: number, maxC: number) => ({ date, minC, maxC });

// 0.044 dB a degree: 1.5 dB down ends at -14.09 C, and 1 dB of tolerance more at -36.8 C.
describe('the days of a year', () => {
  const year = [
    day('2026-01-01', -14, 2),
    day('2026-01-02', -14.1, -3),
    day('2026-01-03', -36.9, -20),
    day('2026-07-01', 14, 38),
  ];

  it('name the first that the control cannot hold, and the first out of tolerance', () => {
    expect(seasonDays(plan, year, 15)).toEqual({
      firstAtLimit: { date: '2026-01-02', end: 'cold', cableC: -14.1 },
      firstOutOfTolerance: { date: '2026-01-03', end: 'cold', cableC: -36.9 },
      daysAtLimit: 2,
      daysOutOfTolerance: 1,
    });
  });

  it('agree with the rows of the table at those temperatures', () => {
    expect(seasonRow(plan, -14).atLimit).toBe(false);
    expect(seasonRow(plan, -14.1).atLimit).toBe(true);
    expect(seasonRow(plan, -36.9).highDbmv - 46).toBeGreaterThan(1);
  });

  it('count the sun on an aerial cable', () => {
    const small = harbourPlan({ upDb: 1 });
    const summer = [day('2026-07-01', 14, 38)];
    expect(seasonDays(small, summer, 0).firstAtLimit).toBeNull();
    expect(seasonDays(small, summer, 15).firstAtLimit).toEqual({
      date: '2026-07-01',
      end: 'hot',
      cableC: 53,
    });
    expect(seasonDays(harbourPlan({ upDb: 1 }, { sky: 'buried' }), summer, 15).firstAtLimit).toBeNull();
  });

  it('may all hold', () => {
    expect(seasonDays(harbourPlan(), year, 15)).toMatchObject({ firstAtLimit: null, daysAtLimit: 0 });
  });
});
