import { describe, expect, it } from 'vitest';
import { controlAt, followedPart } from '../../../core/season/control.ts';
import { harbourPlan } from './harbour-station.ts';

// By hand: 22 dB * 0.002 = 0.044 dB a degree at the top.
describe('the control', () => {
  it.each([
    ['auto', -40, -2.64, false],
    ['auto', 45, 1.1, false],
    ['thermal', -40, -2.112, false],
    ['manual', -40, 0, false],
  ] as const)('in %s at %d C adds %d dB', (mode, ambientC, controlDb, atLimit) => {
    const state = controlAt(harbourPlan({ mode, thermalTracking: 0.8 }), ambientC);
    expect(state.controlDb).toBeCloseTo(controlDb, 12);
    expect(state.atLimit).toBe(atLimit);
  });

  it.each([
    ['auto', -40, -1.5],
    ['auto', 45, 0.5],
    ['thermal', 45, 0.5],
  ] as const)('in %s at %d C is held at %d dB', (mode, ambientC, controlDb) => {
    const plan = harbourPlan({ mode, upDb: 0.5, downDb: 1.5, thermalTracking: 0.8 });
    expect(controlAt(plan, ambientC)).toEqual({ controlDb, atLimit: true });
  });

  it('is not held where it just reaches its limit', () => {
    const plan = harbourPlan({ upDb: 0.5 }, { lossDb: 20, perDegreeC: 0.0025 });
    expect(controlAt(plan, 30)).toEqual({ controlDb: 0.5, atLimit: false });
  });

  it('is not held by the last digit of a sum either (contract, section 3, season: atLimit when c was held)', () => {
    const plan = harbourPlan({ upDb: 0.8, downDb: 1.2 }, { lossDb: 20, perDegreeC: 0.002 });
    expect(controlAt(plan, 40)).toEqual({ controlDb: 0.8, atLimit: false });
    expect(controlAt(plan, -10)).toEqual({ controlDb: -1.2, atLimit: false });
    expect(controlAt(plan, 40.001)).toEqual({ controlDb: 0.8, atLimit: true });
  });

  it('throws for a thermal control without its tracking', () => {
    const plan = { ...harbourPlan({ mode: 'thermal', thermalTracking: 0.8 }), thermalTracking: null };
    expect(() => followedPart(plan)).toThrow(RangeError);
  });
});
