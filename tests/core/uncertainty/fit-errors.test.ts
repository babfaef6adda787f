import { describe, expect, it } from 'vitest';
import { fitLine } from '../../../core/line/fit-line.ts';
import { residualsOf } from '../../../core/line/residuals.ts';
import { fitErrors } from '../../../core/uncertainty/fit-errors.ts';
import norris from '../../data/published/nist-strd-norris.json' with { type: 'json' };
import pontius from '../../data/published/nist-strd-pontius.json' with { type: 'json' };

function fitOf(x: readonly number[], y: readonly number[]) {
  const line = fitLine(x, y);
  if (!line.ok) throw new Error(line.code);
  const { deviationDb } = residualsOf(line.value, x, y);
  const errors = fitErrors(x, deviationDb);
  if (errors === null) throw new Error('no errors');
  return { ...line.value, deviationDb, errors };
}

describe('fitErrors', () => {
  // NIST StRD, Norris: certified standard deviations of B0 and B1, residual standard deviation.
  it('agrees with the certified standard deviations of NIST Norris to 9 digits', () => {
    const { errors } = fitOf(norris.x, norris.y);
    expect(Math.abs(errors.lowDb / 0.232818234301152 - 1)).toBeLessThan(1e-9);
    expect(Math.abs(errors.tiltDb / 0.000429796848199937 - 1)).toBeLessThan(1e-9);
    expect(Math.abs(errors.scatterDb / 0.884796396144373 - 1)).toBeLessThan(1e-9);
  });

  // NIST StRD, Pontius: y = B0 + B1 x + B2 x^2. By Frisch and Waugh, B2 is the slope of what a line leaves of y on what
  // a line leaves of x^2; its standard deviation has n - 3 degrees of freedom instead of n - 2.
  it('agrees with the certified B2 and standard deviations of NIST Pontius to 7 digits', () => {
    const x = pontius.x.map((value) => value / 3e6);
    const bent = fitOf(
      x,
      x.map((value) => value * value),
    ).deviationDb;
    const left = fitOf(x, pontius.y).deviationDb;
    const { tiltDb, errors } = fitOf(bent, left);
    const freedom = Math.sqrt((x.length - 2) / (x.length - 3));
    expect(Math.abs((tiltDb * 1e-12) / 9 / pontius.b2 - 1)).toBeLessThan(1e-7);
    expect(Math.abs((errors.tiltDb * freedom * 1e-12) / 9 / pontius.b2StandardDeviation - 1)).toBeLessThan(
      1e-7,
    );
    expect(Math.abs((errors.scatterDb * freedom) / pontius.residualStandardDeviation - 1)).toBeLessThan(1e-7);
  });

  it('leaves two rows their readings\u2019 own scatter', () => {
    expect(fitErrors([0, 1], [0, 0], 0.2)).toEqual({
      ...{ lowDb: 0.2, highDb: 0.2, scatterDb: 0.2 },
      tiltDb: expect.closeTo(0.2 * Math.SQRT2, 12),
    });
    expect(fitErrors([0, 1], [0, 0])).toMatchObject({ tiltDb: 0 });
  });
  it('has nothing to say of one row or one position, and throws for unlike lengths', () => {
    expect(fitErrors([0], [0])).toBeNull();
    expect(fitErrors([0.3, 0.3, 0.3], [1, 2, 3])).toBeNull();
    expect(() => fitErrors([0, 1], [0])).toThrow(RangeError);
  });
});
