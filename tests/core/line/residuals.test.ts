import { expect, it } from 'vitest';
import { residualsOf } from '../../../core/line/residuals.ts';

const line = { lowDbmv: 36, tiltDb: 10 };

it('takes the line away, keeps signs, and names the farthest row', () => {
  const left = residualsOf(line, [0, 0.5, 1], [36.5, 39, 46.25]);
  expect(left.deviationDb).toEqual([0.5, -2, 0.25]);
  expect(left.flatnessDb).toBe(2.5);
  expect(left.worstIndex).toBe(1);
  expect(left.rmsDb).toBeCloseTo(Math.sqrt((0.25 + 4 + 0.0625) / 3), 12);
});
it('names the first of equals', () => expect(residualsOf(line, [0, 1], [37, 45]).worstIndex).toBe(0));
it('is flat for one row', () =>
  expect(residualsOf(line, [0], [37])).toMatchObject({ flatnessDb: 0, rmsDb: 1, worstIndex: 0 }));
it('throws without rows', () => {
  expect(() => residualsOf(line, [], [])).toThrow(RangeError);
  expect(() => residualsOf(line, [0], [])).toThrow(RangeError);
});
