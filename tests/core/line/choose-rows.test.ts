import { expect, it } from 'vitest';
import { chooseRows } from '../../../core/line/choose-rows.ts';

const rows = Array.from({ length: 20 }, (_, i) => ({
  frequencyMhz: 60 + 6 * i,
  levelDbmv: i === 7 ? -10 : 36 + i * 0.1,
}));

it('leaves out a row without a carrier, unless all rows are wanted', () => {
  expect(chooseRows(rows, {})).toMatchObject({ excluded: [{ frequencyMhz: 102 }], outsideCount: 0 });
  expect(chooseRows(rows, {}).used).toHaveLength(19);
  expect(chooseRows(rows, { keepAll: true })).toMatchObject({ excluded: [], outsideCount: 0 });
  expect(chooseRows(rows, { keepAll: true }).used).toHaveLength(20);
});
it('looks only inside the range', () => {
  const chosen = chooseRows(rows, { lowMhz: 120, highMhz: 150 });
  expect(chosen.used.map((row) => row.frequencyMhz)).toEqual([120, 126, 132, 138, 144, 150]);
  expect(chosen.outsideCount).toBe(14);
});
it('takes an unlocked row with a level only when all rows are wanted', () => {
  const withUnlocked = [...rows.slice(0, 6), { frequencyMhz: 200, levelDbmv: 36.5, unlocked: true }];
  expect(chooseRows(withUnlocked, {}).used).toHaveLength(6);
  expect(chooseRows(withUnlocked, {}).excluded[0]?.reason).toContain('not locked');
  expect(chooseRows(withUnlocked, { keepAll: true }).used).toHaveLength(7);
});
