import { describe, expect, it } from 'vitest';
import { explainedBy, explainedBySine, fitColumns } from '../../../core/inspect/fitted.ts';
import { logChanceOf } from '../../../core/inspect/surprise.ts';
import { chanceFrom } from '../../../core/season/chance.ts';

const mhz = Array.from({ length: 24 }, (_, i) => i + 1);
const columns = [Float64Array.from(mhz, () => 1), Float64Array.from(mhz)];

/** In how many of 20,000 draws of noise a part looks as surprising as that. */
function shareBelow(chanceLimit: number, parameters: 1 | 2): number {
  const chance = chanceFrom(11);
  let below = 0;
  for (let run = 0; run < 20_000; run++) {
    const fitted = fitColumns(
      mhz,
      mhz.map(() => chance.normal()),
      columns,
    );
    const { gainDb2 } =
      parameters === 2 ? explainedBySine(fitted, 0.21) : explainedBy(fitted, { at: 9, values: [1, 1, 1] });
    if (logChanceOf(fitted, gainDb2, parameters, 1) < Math.log(chanceLimit)) below++;
  }
  return below / 20_000;
}

describe('surprise', () => {
  // Definition of a chance: what is rarer than 1 in 100 must come in 1 of 100 draws of white noise, or fewer.
  it('of a sine is met as often as it says', () => {
    expect(shareBelow(0.01, 2)).toBeGreaterThan(0.007);
    expect(shareBelow(0.01, 2)).toBeLessThan(0.0125);
  });

  it('of one column is met at most as often as it says, and not much less', () => {
    expect(shareBelow(0.01, 1)).toBeGreaterThan(0.005);
    expect(shareBelow(0.01, 1)).toBeLessThan(0.0115);
  });

  it('is less after more trials, and none where no freedom is left', () => {
    const fitted = fitColumns(mhz, mhz.map(Math.sqrt), columns);
    const once = logChanceOf(fitted, fitted.squaresDb2 / 2, 2, 1);
    expect(logChanceOf(fitted, fitted.squaresDb2 / 2, 2, 10)).toBeCloseTo(once + Math.log(10), 12);
    expect(logChanceOf({ ...fitted, freedom: 2 }, 1, 2, 1)).toBe(0);
    expect(logChanceOf(fitted, 0, 1, 1)).toBe(0);
  });
});
