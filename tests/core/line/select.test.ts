import fc from 'fast-check';
import { expect, it } from 'vitest';
import { selectAt } from '../../../core/line/select.ts';

const numbers = fc.array(fc.oneof(fc.integer({ min: 0, max: 5 }), fc.double({ noNaN: true })), {
  minLength: 1,
  maxLength: 60,
});

it('gives what sorting would put there, and parts the rest about it', () => {
  fc.assert(
    fc.property(numbers, fc.nat(), (some, any) => {
      const place = any % some.length;
      const values = Float64Array.from(some);
      const found = selectAt(values, values.length, place);
      expect(found).toBe(Float64Array.from(some).sort()[place]);
      expect(values.slice(0, place).every((value) => value <= found)).toBe(true);
      expect(values.slice(place).every((value) => value >= found)).toBe(true);
    }),
  );
});
it('looks only at as many as it is told', () => expect(selectAt(Float64Array.of(5, 4, 1), 2, 0)).toBe(4));
it('throws for a place outside', () => {
  expect(() => selectAt(Float64Array.of(1), 1, 1)).toThrow(RangeError);
  expect(() => selectAt(Float64Array.of(1), 2, 0)).toThrow(RangeError);
});
