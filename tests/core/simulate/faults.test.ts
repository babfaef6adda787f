import { expect, it } from 'vitest';
import { faultLossDb } from '../../../core/simulate/faults.ts';

it('swings by its peak to peak', () => {
  const ripple = { kind: 'ripple', periodMhz: 30, peakToPeakDb: 3 } as const;
  expect(faultLossDb(ripple, 300)).toBeCloseTo(1.5, 9);
  expect(faultLossDb(ripple, 315)).toBeCloseTo(-1.5, 9);
});

it('is deepest in the centre of a notch and half as deep half its width away', () => {
  const notch = { kind: 'notch', centerMhz: 615, depthDb: 4, widthMhz: 36 } as const;
  expect([615, 597, 633].map((f) => faultLossDb(notch, f))).toEqual([4, 2, 2]);
  expect(faultLossDb(notch, 515)).toBeLessThan(0.001);
});

it('rolls off from where it begins to the edge, at either end of the band', () => {
  const high = { kind: 'rolloff', edge: 'high', fromMhz: 750, edgeMhz: 870, depthDb: 3 } as const;
  const low = { kind: 'rolloff', edge: 'low', fromMhz: 100, edgeMhz: 54, depthDb: 2 } as const;
  expect([700, 750, 810, 870].map((f) => faultLossDb(high, f))).toEqual([0, 0, 0.75, 3]);
  expect([120, 100, 54].map((f) => faultLossDb(low, f))).toEqual([0, 0, 2]);
});

it('loses as cable does where there is more of it, and nothing for a missing carrier', () => {
  expect(faultLossDb({ kind: 'extra-cable', lossDb: 2, topMhz: 800 }, 200)).toBeCloseTo(1, 12);
  expect(faultLossDb({ kind: 'missing', frequencyMhz: 57 }, 57)).toBe(0);
});
