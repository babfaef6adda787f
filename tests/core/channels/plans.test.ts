import { expect, it } from 'vitest';
import { channelsOf, PLAN_NAMES, planTitle } from '../../../core/channels/plans.ts';

// The plans' own sources stand beside their tests.
it('has every plan, each with finite places and edges around them', () => {
  expect(PLAN_NAMES.map((plan) => channelsOf(plan).length)).toEqual([157, 158, 158, 101, 79]);
  for (const plan of PLAN_NAMES)
    for (const channel of channelsOf(plan)) {
      expect(channel.plan).toBe(plan);
      expect(channel.upperEdgeMhz - channel.lowerEdgeMhz).toBeCloseTo(channel.widthMhz, 9);
      expect(channel.centerMhz).toBeCloseTo((channel.lowerEdgeMhz + channel.upperEdgeMhz) / 2, 9);
      expect(Math.abs(channel.centerWithOffsetMhz - channel.centerMhz)).toBeLessThan(0.0251);
    }
});

it('has a name for each that no other has', () => {
  expect(new Set(PLAN_NAMES.map(planTitle)).size).toBe(PLAN_NAMES.length);
});
