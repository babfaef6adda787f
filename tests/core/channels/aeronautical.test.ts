import { expect, it } from 'vitest';
import { aeronauticalOffsetHz } from '../../../core/channels/aeronautical.ts';

const offsetsAt = (...mhz: readonly number[]) => mhz.map((one) => aeronauticalOffsetHz(one * 1e6));

// Bands and offsets: 47 CFR 76.612(a), (a)(1) and (b).
it('knows the bands to their edges: 12.5 kHz among voices, 25 kHz among beacons, nothing elsewhere', () => {
  expect(offsetsAt(107.9, 108, 117.9, 118, 136.9, 137)).toEqual([0, 25_000, 25_000, 12_500, 12_500, 0]);
  expect(offsetsAt(224.9, 225, 328.5, 328.6, 335.3, 335.4, 399.9, 400)).toEqual([
    ...[0, 12_500, 12_500, 25_000, 25_000, 12_500, 12_500, 0],
  ]);
});

it('gives the visual carriers of the plans what they need', () =>
  expect(offsetsAt(121.25, 109.25, 331.25, 55.25)).toEqual([12_500, 25_000, 25_000, 0]));
