import fc from 'fast-check';
import { expect, it } from 'vitest';
import { packRice, unpackFirst, unpackRice } from '../../../core/records/rice.ts';

// By hand: [6, 1, 0, 3] takes 14 bits at width 0, 12 at width 1, 13 at width 2; at width 1
// a run of ones for each whole two, a zero, and the rest in one bit: 00001 | 1110 0 | 0 1 | 0 0 | 10 1.
it('codes a list worked out by hand', () => {
  expect(packRice([[6, 1, 0, 3]])).toEqual(Uint8Array.from([0b00001111, 0b00010010, 0b10000000]));
});

it('reads back what was packed, whatever it is', () => {
  const small = fc.nat({ max: 40 });
  const any = fc.oneof({ weight: 9, arbitrary: small }, { weight: 1, arbitrary: fc.maxSafeNat() });
  fc.assert(
    fc.property(fc.array(fc.array(any, { maxLength: 160 }), { maxLength: 3 }), (lists) => {
      const counts = lists.map(({ length }) => length);
      expect(unpackRice(packRice(lists), counts)).toEqual(lists);
      if (lists[0] !== undefined) expect(unpackFirst(packRice(lists), lists[0].length)).toEqual(lists[0]);
    }),
  );
});

// Rice's code takes about log2(e * mean) + 1/2 bits of geometric numbers; far from a byte each.
it('takes few bits for small numbers, and not too many for one that is far off', () => {
  const small = Array.from({ length: 1000 }, (_, i) => (i * 7919) % 11);
  expect(packRice([small]).length).toBeLessThan((1000 * 4.6) / 8);
  expect(packRice([[...small, 2 ** 53 - 1]]).length - packRice([small]).length).toBeLessThanOrEqual(10);
});

it('refuses bytes that are too few, too many or not filled up with zeros, and numbers that are none', () => {
  const packed = packRice([[6, 1, 0, 3]]);
  expect(() => unpackRice(packed.slice(0, -1), [4])).toThrow(/too early/);
  expect(() => unpackRice(Uint8Array.from([...packed, 0]), [4])).toThrow(/after their end/);
  expect(() => unpackRice(Uint8Array.from([...packed.slice(0, -1), 0b10000001]), [4])).toThrow(
    /after their end/,
  );
  expect(() => unpackRice(packed, [400])).toThrow(/too early/);
  for (const value of [-1, 0.5, Number.NaN, 2 ** 53]) expect(() => packRice([[value]])).toThrow(RangeError);
});
