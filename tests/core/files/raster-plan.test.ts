import { expect, it } from 'vitest';
import { rasterPlan } from '../../../core/files/raster-plan.ts';

// The digital centres of 6 MHz channels from 54 MHz: 57 (channel 2) ... 867 MHz; 47 CFR 76.605, edge + 3 MHz.
it('fills 54 to 870 MHz with 136 channels of 6 MHz', () => {
  const plan = rasterPlan({ lowMhz: 54, highMhz: 870 }, 6);
  expect([plan.length, plan[0], plan[1], plan.at(-1)]).toEqual([136, 57, 63, 867]);
});

it('leaves out a channel that does not fit, and all when none does', () => {
  expect(rasterPlan({ lowMhz: 5, highMhz: 42 }, 6.4)).toEqual([8.2, 14.6, 21, 27.4, 33.8]);
  expect(rasterPlan({ lowMhz: 5, highMhz: 10 }, 6)).toEqual([]);
});

it('throws on a raster that is none', () => {
  for (const stepMhz of [0, -6, Number.NaN, Number.POSITIVE_INFINITY])
    expect(() => rasterPlan({ lowMhz: 54, highMhz: 870 }, stepMhz)).toThrow(RangeError);
});
