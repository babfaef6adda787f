import { describe, expect, it } from 'vitest';
import { trendOf } from '../../../core/trend/direction.ts';
import { watched } from './watched.ts';

/** Does anything in a minute call a level moving that stands still? */
function falseCall(seed: number, perSecond: number): boolean {
  for (const { trend } of watched(() => 30, { seed, perSecond, seconds: 60 }))
    if (trend !== null && trend.direction !== 'steady') return true;
  return false;
}

/** Seconds from the moment at which a level begins to fall until it is said, in 30 seeds, sorted; wrong ways counted. */
function delays(dbPerS: number, perSecond: number) {
  const found: number[] = [];
  let wrong = 0;
  for (let seed = 1000; seed < 1030; seed++) {
    const level = (atS: number) => 30 - dbPerS * Math.max(0, atS - 10);
    for (const { atS, trend } of watched(level, { seed, perSecond, seconds: 60 })) {
      if (atS < 10 || trend === null) continue;
      if (trend.direction === 'rising') wrong++;
      if (trend.direction !== 'falling') continue;
      found.push(atS - 10);
      break;
    }
  }
  return { found: found.sort((a, b) => a - b), wrong };
}

describe('a level that stands still in noise of 0.3 dB', () => {
  // Seeds 0 to 499: a minute of watching each.
  it.each([
    [5, 500],
    [10, 500],
    [20, 300],
  ])(
    'is called moving in fewer than one minute of a hundred at %d readings a second',
    (perSecond, minutes) => {
      let calls = 0;
      for (let seed = 0; seed < minutes; seed++) if (falseCall(seed, perSecond)) calls++;
      expect(calls / minutes).toBeLessThan(0.01);
    },
    120_000,
  );

  it('is called steady, the surer the longer', () => {
    const within = [...watched(() => 30, { seed: 1, perSecond: 10, seconds: 40 })].map(
      ({ trend }) => trend?.lessThanDb ?? 99,
    );
    expect(within[15]).toBeGreaterThan(within[390] ?? 0);
    expect(within[390]).toBeLessThan(0.3);
  });
});

describe('a level that falls', () => {
  // Seeds 1000 to 1029, noise 0.3 dB. The bounds are what the method gives with a little room.
  it.each([
    [2, 10, 1.5],
    [0.5, 10, 2.6],
    [0.1, 10, 7],
    [0.025, 10, 18],
    [2, 5, 2.2],
    [2, 20, 1.1],
  ])(
    'by %d dB a second is called at %d readings a second within %d s, never the wrong way',
    (slope, rate, latest) => {
      const { found, wrong } = delays(slope, rate);
      expect(found).toHaveLength(30);
      expect(wrong).toBe(0);
      expect(found[28]).toBeLessThan(latest);
    },
  );

  it('is called steady again soon after it stops', () => {
    for (let seed = 2000; seed < 2020; seed++) {
      const level = (atS: number) => 30 - 0.5 * Math.min(10, atS);
      let steadyS: number | null = null;
      for (const { atS, trend } of watched(level, { seed, perSecond: 10, seconds: 20 }))
        if (atS > 10 && steadyS === null && trend?.direction === 'steady') steadyS = atS - 10;
      expect(steadyS).toBeLessThan(4);
    }
  });

  it('has the change over the time that it names', () => {
    const readings = Array.from({ length: 81 }, (_, k) => ({ atS: k / 10, levelDbmv: 30 - 0.3 * (k / 10) }));
    const trend = trendOf(readings, 0);
    expect(trend?.direction).toBe('falling');
    expect((trend?.changeDb ?? 0) / (trend?.overS ?? 1)).toBeCloseTo(-0.3, 9);
    expect(trend?.confidence).toBeGreaterThan(0.9999);
  });
});

describe('readings', () => {
  it('that are too few, or too far apart, say nothing', () => {
    expect(trendOf([])).toBeNull();
    expect(trendOf([0, 0.1, 0.2, 0.3, 0.4].map((atS) => ({ atS, levelDbmv: 30 - atS })))).toBeNull();
  });

  it('with a gap are not taken for a window that they do not fill', () => {
    const before = Array.from({ length: 20 }, (_, k) => ({ atS: k / 10, levelDbmv: 30 }));
    const after = Array.from({ length: 5 }, (_, k) => ({ atS: 60 + k / 10, levelDbmv: 20 }));
    expect(trendOf([...before, ...after])).toBeNull();
  });

  it('that jump by the last digit of the meter are no move', () => {
    const readings = Array.from({ length: 40 }, (_, k) => ({ atS: k / 10, levelDbmv: k < 37 ? 30 : 30.1 }));
    expect(trendOf(readings)?.direction).toBe('steady');
  });

  it('must be numbers in the order of time', () => {
    expect(() => trendOf([{ atS: 1, levelDbmv: Number.NaN }])).toThrow(RangeError);
    expect(() =>
      trendOf([
        { atS: 1, levelDbmv: 30 },
        { atS: 0.5, levelDbmv: 30 },
      ]),
    ).toThrow(RangeError);
  });
});
