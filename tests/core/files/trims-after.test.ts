import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Trim } from '../../../core/files/station-notes.ts';
import { trimsAfter } from '../../../core/files/trims-after.ts';

const gain: Trim = { name: 'gain', kind: 'gain', rangeDb: [-2, 2], atMhz: 870 };
const slope: Trim = { name: 'slope', kind: 'slope', rangeDb: [-1, 3], atMhz: 870 };

// By hand: from the middle of +-2 dB, 0.7 dB down leaves 1.3 down and 2.7 up.
it('leaves less on the side that was turned to, and more on the other', () => {
  expect(trimsAfter([gain, slope], [{ name: 'gain', byDb: -0.7 }])).toEqual([
    { ...gain, rangeDb: [-1.3, 2.7] },
    slope,
  ]);
});

it('leaves nothing beyond an end, and knows no trim of another name', () => {
  expect(trimsAfter([gain], [{ name: 'gain', byDb: 2.4 }])[0]?.rangeDb).toEqual([-4.4, 0]);
  expect(trimsAfter([gain], [{ name: 'other', byDb: 1 }])).toEqual([gain]);
});

it('is where it was after there and back, within the ends', () => {
  fc.assert(
    fc.property(fc.integer({ min: -1999, max: 1999 }), (thousandths) => {
      const byDb = thousandths / 1000;
      const there = trimsAfter([gain], [{ name: 'gain', byDb }]);
      expect(trimsAfter(there, [{ name: 'gain', byDb: -byDb }])).toEqual([gain]);
    }),
  );
});
