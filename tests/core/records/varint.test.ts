import fc from 'fast-check';
import { expect, it } from 'vitest';
import { createVarintReader, createVarintWriter } from '../../../core/records/varint.ts';

const hexOf = (write: (out: ReturnType<typeof createVarintWriter>) => void): string => {
  const out = createVarintWriter();
  write(out);
  return Buffer.from(out.bytes()).toString('hex');
};

// The encoding guide of Protocol Buffers: 150 as a varint; the table of zigzag numbers.
it('writes the published examples', () => {
  expect(hexOf((out) => out.unsigned(150))).toBe('9601');
  const zigzag = [0, -1, 1, -2, 0x7fffffff, -0x80000000];
  const asUnsigned = [0, 1, 2, 3, 0xfffffffe, 0xffffffff];
  zigzag.forEach((value, i) => {
    expect(hexOf((out) => out.signed(value))).toBe(hexOf((out) => out.unsigned(asUnsigned[i] ?? Number.NaN)));
  });
});

it('reads back what was written, and no more', () => {
  const half = 2 ** 52 - 1;
  fc.assert(
    fc.property(fc.array(fc.tuple(fc.maxSafeNat(), fc.integer({ min: -half, max: half }))), (numbers) => {
      const out = createVarintWriter();
      for (const [natural, whole] of numbers) {
        out.unsigned(natural);
        out.signed(whole);
      }
      const input = createVarintReader(out.bytes());
      for (const [natural, whole] of numbers) {
        expect(input.unsigned()).toBe(natural);
        expect(input.signed()).toBe(whole);
      }
      expect(input.atEnd()).toBe(true);
      expect(() => input.unsigned()).toThrow(/too early/);
    }),
  );
});

it('refuses what no writer writes, and to write what it could not read', () => {
  expect(() => createVarintReader(Uint8Array.from([0x80])).unsigned()).toThrow(/too early/);
  expect(() => createVarintReader(Uint8Array.from([0x81, 0x00])).unsigned()).toThrow(/padded/);
  expect(() => createVarintReader(new Uint8Array(12).fill(0xff)).unsigned()).toThrow(/too large/);
  for (const value of [-1, 0.5, Number.NaN, 2 ** 53])
    expect(() => createVarintWriter().unsigned(value)).toThrow(RangeError);
  for (const value of [0.5, Number.NaN, 2 ** 52, -(2 ** 52) - 1])
    expect(() => createVarintWriter().signed(value)).toThrow(RangeError);
});
