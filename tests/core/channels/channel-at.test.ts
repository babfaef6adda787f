import fc from 'fast-check';
import { expect, it } from 'vitest';
import { channelAt } from '../../../core/channels/channel-at.ts';
import { channelsOf, PLAN_NAMES } from '../../../core/channels/plans.ts';
import { anyNumber } from '../../support/any-number.ts';

const at = (mhz: number, plan: (typeof PLAN_NAMES)[number], toleranceMhz?: number) => {
  const found = channelAt(mhz, plan, toleranceMhz);
  return found.ok ? [found.value.channel.label, found.value.place, found.value.offKhz] : found.code;
};

// Carriers: CEA-542-C as quoted by Hranac, March 2012 (55.25, 54.0027); dtv-scan-tables (123.0125).
it('knows a carrier and both centres, and how far off a reading is', () => {
  expect(at(55.25, 'std')).toEqual(['2', 'visual carrier', 0]);
  expect(at(54.0027, 'hrc')).toEqual(['2', 'visual carrier', 0]);
  expect(at(57, 'std')).toEqual(['2', 'center', 0]);
  expect(at(123.0125, 'std')).toEqual(['14', 'center', 0]);
  expect(at(55.3, 'std')).toEqual(['2', 'visual carrier', 50]);
  expect(at(314, 'europe-digital')).toEqual(['314 MHz', 'center', 0]);
});

it('finds every channel of every plan at each of its places', () => {
  for (const plan of PLAN_NAMES)
    for (const channel of channelsOf(plan))
      for (const placeMhz of [channel.visualMhz, channel.centerMhz, channel.centerWithOffsetMhz])
        if (placeMhz !== null)
          expect(at(placeMhz, plan)).toMatchObject([channel.label, expect.any(String), 0]);
});

it('refuses what lies in the gap of one plan and names the plans that have it', () => {
  expect(channelAt(75, 'std')).toMatchObject({
    ok: false,
    code: 'not-in-plan',
    help: expect.stringContaining('IRC'),
  });
  expect(channelAt(75, 'irc').ok).toBe(true);
});

it('refuses what lies outside every plan', () => {
  expect(at(1.5, 'std')).toBe('outside-every-plan');
  expect(at(2000, 'irc')).toBe('outside-every-plan');
  expect(at(59.5, 'std')).toBe('outside-every-plan');
});

it('widens and narrows with its tolerance, which may not reach half way to the next place', () => {
  expect(at(55.6, 'std')).not.toEqual(expect.arrayContaining(['2']));
  expect(at(55.6, 'std', 0.5)).toEqual(['2', 'visual carrier', 350]);
  expect(at(55.26, 'std', 0)).not.toEqual(expect.arrayContaining(['2']));
  expect(at(55.25, 'std', 0.9)).toBe('out-of-range');
});

it('is finite or refused, whatever it is asked', () => {
  fc.assert(
    fc.property(anyNumber, fc.constantFrom(...PLAN_NAMES), anyNumber, (mhz, plan, toleranceMhz) => {
      const found = channelAt(mhz, plan, toleranceMhz);
      return !found.ok || Number.isFinite(found.value.offKhz);
    }),
  );
});
