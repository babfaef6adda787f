import { expect, it } from 'vitest';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { heldAgainst } from '../../../core/propose/held-against.ts';

const rows = (...levels: readonly (number | null)[]): LevelRow[] =>
  levels.map((levelDbmv, i) => ({ frequencyMhz: 100 + 100 * i, levelDbmv }));

// Differences worked by hand; the limit of 0.5 dB is common practice, no published source.
it('names the largest difference with its sign and place, and the mean', () => {
  const held = heldAgainst(rows(36, 40, 44), rows(36.1, 38.6, 43.9));
  if (!held.ok) throw new Error(held.code);
  expect(held.value.worstDb).toBeCloseTo(-1.4, 12);
  expect(held.value.worstMhz).toBe(200);
  expect(held.value.meanDb).toBeCloseTo((0.1 - 1.4 - 0.1) / 3, 12);
  expect(held.value.comparedCount).toBe(3);
  expect(held.value.agrees).toBe(false);
});

it('agrees up to and with the limit, not beyond it', () => {
  const at = (offsetDb: number) => heldAgainst(rows(36.3, 40.1), rows(36.3 + offsetDb, 40.1));
  expect(at(0.5)).toMatchObject({ ok: true, value: { agrees: true } });
  expect(at(-0.5)).toMatchObject({ ok: true, value: { agrees: true } });
  expect(at(0.51)).toMatchObject({ ok: true, value: { agrees: false } });
});

it('compares only channels that both sweeps have, and only those that were read', () => {
  const held = heldAgainst(rows(36, 40, 44), [
    ...rows(36.2, null),
    { frequencyMhz: 300, levelDbmv: 20, unlocked: true },
    { frequencyMhz: 950, levelDbmv: 1 },
  ]);
  expect(held).toMatchObject({ ok: true, value: { comparedCount: 1, worstMhz: 100, agrees: true } });
});

it('refuses two sweeps without a channel in common', () => {
  expect(heldAgainst(rows(36), [{ frequencyMhz: 101, levelDbmv: 36 }])).toMatchObject({
    ok: false,
    code: 'nothing-in-common',
  });
});
