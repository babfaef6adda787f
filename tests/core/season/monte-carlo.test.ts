import { describe, expect, it } from 'vitest';
import { SEASON_UNCERTAINTY, seasonChance } from '../../../core/season/monte-carlo.ts';
import { harbourPlan } from './harbour-station.ts';

const certain = { spanLossDb: 0, perDegreeC: 0, reserveDb: 0, setAtC: 0 };

describe('the chance of holding all year', () => {
  it('is 1 or 0 where nothing is uncertain, on the two sides of the exact limit', () => {
    const plan = harbourPlan({ upDb: 1.1, downDb: 6 });
    expect(seasonChance(plan, { coldC: -20, hotC: 44.9 }, 1, certain, 10)).toMatchObject({
      holds: 1,
      neverAtLimit: 1,
    });
    expect(seasonChance(plan, { coldC: -20, hotC: 45.1 }, 1, certain, 10)).toMatchObject({
      holds: 1,
      neverAtLimit: 0,
    });
    // 1 dB of tolerance is 22.7 degrees more.
    expect(seasonChance(plan, { coldC: -20, hotC: 68 }, 1, certain, 10)).toMatchObject({
      holds: 0,
      failsHot: 1,
      failsCold: 0,
    });
  });

  // Only the reserve is uncertain: at the limit itself half of the runs have less of it, and a standard deviation inside
  // 84.13 % hold (any table of the normal distribution).
  it('agrees with the normal distribution where one figure is uncertain', () => {
    const onlyReserve = { ...certain, reserveDb: 0.5 };
    const plan = harbourPlan({ upDb: 1.1, downDb: 60 });
    const at = (hotC: number) => seasonChance(plan, { coldC: 20, hotC }, 3, onlyReserve).neverAtLimit;
    expect(at(45)).toBeCloseTo(0.5, 1.6);
    expect(at(45 - 0.5 / 0.044)).toBeCloseTo(0.8413, 1.6);
    expect(at(45 + 0.5 / 0.044)).toBeCloseTo(0.1587, 1.6);
  });

  it('is the same for the same seed', () => {
    const ask = (seed: number) => seasonChance(harbourPlan({ upDb: 1 }), { coldC: -30, hotC: 50 }, seed);
    expect(ask(5)).toEqual(ask(5));
    expect(ask(5)).not.toEqual(ask(6));
    expect(ask(5).runs).toBe(10_000);
  });

  it('falls with each uncertainty where the margin is there without', () => {
    const plan = harbourPlan({ upDb: 0.6, downDb: 1.7 });
    const cable = { coldC: -30, hotC: 45 };
    expect(seasonChance(plan, cable, 4, certain, 5).holds).toBe(1);
    for (const key of ['spanLossDb', 'perDegreeC', 'reserveDb', 'setAtC'] as const) {
      const one = { ...certain, [key]: SEASON_UNCERTAINTY[key] * 4 };
      expect(seasonChance(plan, cable, 4, one, 2000).holds).toBeLessThan(1);
    }
  });

  it('throws on no runs and on no seed', () => {
    expect(() => seasonChance(harbourPlan(), { coldC: 0, hotC: 1 }, 1, certain, 0)).toThrow(RangeError);
    expect(() => seasonChance(harbourPlan(), { coldC: 0, hotC: 1 }, -1)).toThrow(RangeError);
  });
});
