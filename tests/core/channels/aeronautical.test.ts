import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  aeronauticalOffsetHz,
  aeronauticalStanding,
  aeronauticalUse,
} from '../../../core/channels/aeronautical.ts';
import { anyNumber } from '../../support/any-number.ts';

// Bands and offsets: 47 CFR 76.612(a), (a)(1), (a)(2), (b); the navigation grid of 50 kHz is from memory.
it('knows the bands to their edges', () => {
  const usedAt = (mhz: number) => aeronauticalUse(mhz * 1e6);
  expect([107.9, 108, 117.9, 118, 136.9, 137].map(usedAt)).toEqual([
    null,
    'navigation',
    'navigation',
    'communication',
    'communication',
    null,
  ]);
  expect([224.9, 225, 328.5, 328.6, 335.3, 335.4, 399.9, 400].map(usedAt)).toEqual([
    null,
    'communication',
    'communication',
    'navigation',
    'navigation',
    'communication',
    'communication',
    null,
  ]);
});

it('asks for 12.5 kHz among voices, 25 kHz among beacons, nothing elsewhere', () => {
  expect([121_250_000, 109_250_000, 331_250_000, 55_250_000].map(aeronauticalOffsetHz)).toEqual([
    12_500, 25_000, 25_000, 0,
  ]);
});

it('says by what a carrier meets the rule, and that HRC 42 does not', () => {
  const meets = (mhz: number, plan: 'std' | 'hrc' | 'irc') => {
    const standing = aeronauticalStanding(mhz, plan);
    return standing.ok ? standing.value.meets : standing.code;
  };
  expect(meets(121.2625, 'std')).toBe('offset');
  expect(meets(121.25, 'std')).toBe('not met');
  expect(meets(121.2575, 'std')).toBe('offset');
  expect(meets(121.257, 'std')).toBe('not met');
  expect(meets(120.006, 'hrc')).toBe('comb');
  expect(meets(120.006, 'irc')).toBe('not met');
  expect(meets(330.0165, 'hrc')).toBe('not met');
  expect(meets(108.025, 'hrc')).toBe('offset');
  expect(meets(108.0054, 'hrc')).toBe('not met');
  expect(meets(55.25, 'std')).toBe('no rule here');
});

it('is finite or refused, whatever it is asked', () => {
  fc.assert(
    fc.property(anyNumber, (frequencyMhz) => {
      const standing = aeronauticalStanding(frequencyMhz, 'hrc');
      if (!standing.ok) return frequencyMhz <= 0 || frequencyMhz > 100_000 || Number.isNaN(frequencyMhz);
      return standing.value.clearKhz === null || Number.isFinite(standing.value.clearKhz);
    }),
  );
});
