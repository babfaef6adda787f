import { expect, it } from 'vitest';
import { fitLine } from '../../../core/line/fit-line.ts';
import { residualsOf } from '../../../core/line/residuals.ts';
import { chanceFrom } from '../../../core/season/chance.ts';
import { fitErrors } from '../../../core/uncertainty/fit-errors.ts';
import { lineUncertainty } from '../../../core/uncertainty/line-uncertainty.ts';

const budget = { contributions: [], commonDb: 0.3, acrossDb: 0.2, singleDb: 0.125 };
const position = Array.from({ length: 40 }, (_, i) => i / 39);

// An independent road: the same errors drawn 4000 times over a sweep with a ripple, and the spread of the answers looked at.
it('is the spread that drawn errors show', () => {
  const chance = chanceFrom(7);
  const trueDbmv = position.map((x, i) => 36 + 10 * x + (i === 9 ? 0.9 : i === 30 ? -0.9 : 0));
  const clean = fitLine(position, trueDbmv);
  if (!clean.ok) throw new Error(clean.code);
  const ripple = residualsOf(clean.value, position, trueDbmv).deviationDb;
  const errors = fitErrors(position, ripple, budget.singleDb);
  if (errors === null) throw new Error('no errors');
  const drawn = Array.from({ length: 4000 }, () => {
    const commonDb = budget.commonDb * chance.normal();
    const acrossDb = budget.acrossDb * chance.normal();
    const read = trueDbmv.map(
      (level, i) =>
        level + commonDb + acrossDb * ((position[i] ?? 0) - 0.5) + budget.singleDb * chance.normal(),
    );
    const line = fitLine(position, read);
    if (!line.ok) throw new Error(line.code);
    return { ...line.value, flatnessDb: residualsOf(line.value, position, read).flatnessDb };
  });
  const spread = (of: (one: (typeof drawn)[number]) => number): number => {
    const mean = drawn.reduce((sum, one) => sum + of(one), 0) / drawn.length;
    return Math.sqrt(drawn.reduce((sum, one) => sum + (of(one) - mean) ** 2, 0) / drawn.length);
  };
  // The ripple counts as scatter in the standard errors, so they may only be larger than what was drawn.
  const u = lineUncertainty(budget, errors);
  const onlyChance = lineUncertainty(
    budget,
    fitErrors(
      position,
      position.map(() => 0),
      0.125,
    ) ?? errors,
  );
  for (const [given, least, found] of [
    [u.levelLowDb, onlyChance.levelLowDb, spread(({ lowDbmv }) => lowDbmv)],
    [u.levelHighDb, onlyChance.levelHighDb, spread(({ lowDbmv, tiltDb }) => lowDbmv + tiltDb)],
    [u.tiltDb, onlyChance.tiltDb, spread(({ tiltDb }) => tiltDb)],
  ] as const) {
    expect(Math.abs(least / found - 1)).toBeLessThan(0.05);
    expect(given).toBeGreaterThanOrEqual(least);
  }
  expect(Math.abs(u.flatnessDb / spread(({ flatnessDb }) => flatnessDb) - 1)).toBeLessThan(0.1);
});
