import { describe, expect, it } from 'vitest';
import {
  demandPerDegreeDb,
  limitDemand,
  limitTemperatures,
  toleranceAtControlTopDb,
  toleranceDemand,
  toleranceTemperatures,
} from '../../../core/season/limits.ts';
import { seasonRow } from '../../../core/season/rows.ts';
import { harbourPlan } from './harbour-station.ts';

describe('where the control ends', () => {
  // By hand: 0.044 dB a degree, set at 20 C: 1.1 dB up is 25 degrees, 2.2 dB down is 50 degrees.
  it('is solved exactly', () => {
    const ends = limitTemperatures(harbourPlan({ upDb: 1.1, downDb: 2.2 }));
    expect(ends.hotC).toBeCloseTo(45, 10);
    expect(ends.coldC).toBeCloseTo(-30, 10);
    expect(demandPerDegreeDb(harbourPlan())).toBeCloseTo(0.044, 12);
  });

  it('is nowhere for a manual control and for a cable that does not change', () => {
    const nowhere = { hotC: null, coldC: null };
    expect(limitTemperatures(harbourPlan({ mode: 'manual' }))).toEqual(nowhere);
    expect(limitTemperatures(harbourPlan({}, { perDegreeC: 0 }))).toEqual(nowhere);
    expect(limitTemperatures(harbourPlan({ mode: 'thermal', thermalTracking: 0 }))).toEqual(nowhere);
  });

  it('comes later for a control that follows less', () => {
    expect(limitDemand(0.8, { upDb: 4, downDb: 6 })).toEqual({ upDb: 5, downDb: 7.5 });
  });
});

describe('where the output leaves its tolerance', () => {
  // The rows are the contract's formulas; the solved temperature must be the one at which they cross the tolerance.
  it.each([
    { mode: 'auto', upDb: 1, downDb: 1.5 },
    { mode: 'manual' },
    { mode: 'thermal', thermalTracking: 0.5, upDb: 4, downDb: 6 },
    { mode: 'thermal', thermalTracking: 0.9, upDb: 1, downDb: 0.5 },
    { mode: 'thermal', thermalTracking: 1.5, upDb: 4, downDb: 6 },
    { mode: 'thermal', thermalTracking: 1.2, upDb: 1, downDb: 1 },
  ] as const)('is where the rows say so: %o', (control) => {
    const plan = harbourPlan({ topMhz: 750, ...control }, { topMhz: 1000, lossDb: 30 });
    const { hotC, coldC } = toleranceTemperatures(plan);
    if (hotC === null || coldC === null) throw new Error('never');
    const errorDb = (ambientC: number) => Math.abs(seasonRow(plan, ambientC).highDbmv - 46);
    for (const [edgeC, out] of [
      [hotC, 1e-6],
      [coldC, -1e-6],
    ] as const) {
      expect(errorDb(edgeC)).toBeCloseTo(1, 8);
      expect(errorDb(edgeC + out)).toBeGreaterThan(1);
      // Never out before the edge, all the way from where it was set.
      for (let k = 0; k < 200; k++) expect(errorDb(20 + ((edgeC - 20) * k) / 200)).toBeLessThan(1);
    }
  });

  it('carries the tolerance to the control top as the square root of frequency', () => {
    expect(toleranceAtControlTopDb(harbourPlan({ topMhz: 217.5 }))).toBeCloseTo(0.5, 12);
    expect(toleranceDemand(1, { upDb: 4, downDb: 6 }, 1)).toEqual({ upDb: 5, downDb: 7 });
    expect(toleranceDemand(0, { upDb: 4, downDb: 6 }, 1)).toEqual({ upDb: 1, downDb: 1 });
  });
});
