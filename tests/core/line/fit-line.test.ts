import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitLine } from '../../../core/line/fit-line.ts';
import { residualsOf } from '../../../core/line/residuals.ts';
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };

// NIST Statistical Reference Datasets, linear least squares, "Norris", 36 rows: certified values.
describe('NIST Norris', () => {
  const fit = fitLine(norris.x, norris.y);
  if (!fit.ok) throw new Error(fit.code);
  it('intercept and slope agree to 11 digits', () => {
    expect(Math.abs(fit.value.lowDbmv / norris.intercept - 1)).toBeLessThan(1e-11);
    expect(Math.abs(fit.value.tiltDb / norris.slope - 1)).toBeLessThan(1e-11);
  });
  it('residual standard deviation agrees to 11 digits', () => {
    const { rmsDb } = residualsOf(fit.value, norris.x, norris.y);
    const standardDeviation = rmsDb * Math.sqrt(36 / 34);
    expect(Math.abs(standardDeviation / norris.residualStandardDeviation - 1)).toBeLessThan(1e-11);
  });
});

it('keeps its digits far from zero: Norris moved by a million either way', () => {
  const fit = fitLine(
    norris.x.map((x) => x + 1e6),
    norris.y.map((y) => y - 1e6),
  );
  if (!fit.ok) throw new Error(fit.code);
  expect(Math.abs(fit.value.tiltDb / norris.slope - 1)).toBeLessThan(1e-9);
});

it('refuses what has no line', () => {
  expect(fitLine([], [])).toMatchObject({ ok: false, code: 'too-few', where: 'no usable row' });
  expect(fitLine([0.5], [3])).toMatchObject({ ok: false, code: 'too-few', where: '1 usable row' });
  expect(fitLine([0.1, 0.1, 0.1], [1, 2, 3])).toMatchObject({ ok: false, code: 'one-frequency' });
  expect(fitLine([0, 1], [1e308, -1e308])).toMatchObject({ ok: false, code: 'not-finite' });
  expect(() => fitLine([0, 1], [3])).toThrow(RangeError);
});

it('gives finite numbers or a refusal, whatever it is given', () => {
  const any = fc.array(fc.tuple(fc.double({ noNaN: true }), fc.double({ noNaN: true })), { maxLength: 8 });
  fc.assert(
    fc.property(any, (rows) => {
      const fit = fitLine(
        rows.map(([x]) => x),
        rows.map(([, level]) => level),
      );
      if (fit.ok) expect([fit.value.lowDbmv, fit.value.tiltDb].every(Number.isFinite)).toBe(true);
    }),
    { numRuns: 500 },
  );
});
