import { describe, expect, it } from 'vitest';
import { reserveTrend } from '../../../core/drift/reserve-trend.ts';
import { START_MS, YEAR_MS } from './sweeps.ts';

const point = (years: number, leftDb: number, askedDb = 4) => ({
  visitId: `visit-${years}`,
  atMs: START_MS + years * YEAR_MS,
  leftDb,
  askedDb,
});

describe('the reserve over the years', () => {
  // By hand: 4.6, 4.2, 3.8 of 4.0 dB are +0.6, +0.2, -0.2: 0.4 dB less each year.
  it('falls as much as it was left smaller, whatever order the set-ups come in', () => {
    const { values, trend } = reserveTrend([point(2, 3.8), point(0, 4.6), point(1, 4.2)]);
    expect(values.map(({ visitId }) => visitId)).toEqual(['visit-0', 'visit-1', 'visit-2']);
    expect(values.map(({ valueDb }) => Math.round(valueDb * 10) / 10)).toEqual([0.6, 0.2, -0.2]);
    expect(trend?.perYearDb).toBeCloseTo(-0.4, 9);
    expect(trend?.line.valueDb).toBeCloseTo(-0.2, 9);
  });
  it('stands still where a cold day only asked for more', () => {
    const { trend } = reserveTrend([point(0, 4), point(1, 6, 6), point(2, 5, 5)]);
    expect(trend?.perYearDb).toBeCloseTo(0, 9);
  });
  it('may lie half a dB either way, as its verdict says', () => {
    expect(reserveTrend([]).limits).toEqual({ fromDb: -0.5, toDb: 0.5 });
  });
  it('has no line from two set-ups, or from three of one day', () => {
    expect(reserveTrend([point(0, 4), point(1, 3)]).trend).toBeNull();
    expect(reserveTrend([point(0, 4), point(0, 3), point(0, 5)]).trend).toBeNull();
    expect(reserveTrend([])).toMatchObject({ values: [], trend: null });
  });
  it('refuses a reserve that is no number', () => {
    expect(() => reserveTrend([point(0, 4), point(1, Number.NaN), point(2, 4)])).toThrow(RangeError);
  });
});
