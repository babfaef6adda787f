import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import {
  betweenUncertaintyDb,
  budgetOf,
  channelUncertaintyDb,
  combined,
  differenceUncertaintyDb,
  rectangular,
  unfitConditions,
} from '../../../core/uncertainty/budget.ts';

const meter = MeterUncertainty.parse({});

// JCGM 100:2008, H.1: 25 and 9.7 nm (H.1.3.1, H.1.3.2), 2.9 and 16.6 nm (table H.1) combine to 32 nm; the text itself was
// not read, its figures stand so in public tests of other programs against it.
it('combines as the worked example of the end gauge', () =>
  expect(combined([25, 9.7, 2.9, 16.6])).toBeCloseTo(32, 0));
// JCGM 100:2008, 4.3.7: a rectangular half-width of 1 has a standard uncertainty of 0.58.
it('takes a half-width as rectangular', () => expect(rectangular(1)).toBeCloseTo(0.577, 3));

describe('budgetOf', () => {
  const budget = budgetOf({ meter, ambientC: 23 });
  it('names every part with what was given and on what basis', () => {
    expect(budget.contributions).toHaveLength(5);
    for (const one of budget.contributions) {
      expect(one.name).toMatch(/\w/);
      expect(one.basis).toContain('no published source');
    }
  });
  it('adds by how the parts are shared between channels', () => {
    expect(budget.commonDb).toBeCloseTo(Math.sqrt((0.5 ** 2 + 0.3 ** 2) / 3), 12);
    expect(budget.acrossDb).toBeCloseTo(0.3 / Math.sqrt(3), 12);
    expect(budget.singleDb).toBe(0.125);
  });
  it('grows away from where the meter was calibrated, and says so where nobody wrote the temperature down', () => {
    const cold = budgetOf({ meter, ambientC: -20 });
    expect(cold.commonDb).toBeGreaterThan(budget.commonDb);
    const unknown = budgetOf({ meter, ambientC: null });
    expect(unknown.commonDb).toBeGreaterThan(budget.commonDb);
    expect(unknown.contributions.at(-1)?.basis).toContain('not written down: 20 \u00B0C (36 \u00B0F) away');
  });
  it('throws for a temperature that is none', () =>
    expect(() => budgetOf({ meter, ambientC: Number.NaN })).toThrow(RangeError));
});

describe('what a level is uncertain by', () => {
  const budget = { contributions: [], commonDb: 0.3, acrossDb: 0.4, singleDb: 0.12 };
  it('is least in the middle of the band', () => {
    expect(channelUncertaintyDb(budget, 0.5)).toBeCloseTo(Math.hypot(0.3, 0.12), 12);
    expect(channelUncertaintyDb(budget, 1)).toBeCloseTo(Math.hypot(0.3, 0.2, 0.12), 12);
    expect(channelUncertaintyDb(budget, 0)).toBe(channelUncertaintyDb(budget, 1));
  });
  it('between two channels shares their chance errors, and is that of the channel itself on one', () => {
    expect(betweenUncertaintyDb(budget, 0.5, 0)).toBeCloseTo(channelUncertaintyDb(budget, 0.5), 12);
    expect(betweenUncertaintyDb(budget, 0.5, 0.5)).toBeCloseTo(Math.hypot(0.3, 0.12 / Math.SQRT2), 12);
    expect(betweenUncertaintyDb(budget, 0.5, 2)).toBeGreaterThan(betweenUncertaintyDb(budget, 0.5, 1));
  });
  it('of a difference has only chance left', () =>
    expect(differenceUncertaintyDb(budget)).toBeCloseTo(0.12 * Math.SQRT2, 12));
});

it('unfitConditions names the number that makes no sense', () => {
  expect(unfitConditions({ meter, ambientC: null })).toBeNull();
  expect(unfitConditions({ meter, ambientC: 200 })).toMatchObject({ where: 'temperature 200 degrees C' });
  expect(unfitConditions({ meter: { ...meter, accuracyDb: Number.NaN }, ambientC: 20 })).toMatchObject({
    ...{ code: 'bad-value', where: 'meter accuracy' },
  });
});
