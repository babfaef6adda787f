import { describe, expect, it } from 'vitest';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { agreesWithinDb, heldAgainst } from '../../../core/propose/held-against.ts';

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

it('agrees up to and with the usual limit where nothing is known of the prediction, not beyond it', () => {
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

describe('with the uncertainty of the prediction', () => {
  // The usual meter and one exchanged part of 0.25 dB: sqrt 2 x 0.125, and sqrt 2 x 0.25 / sqrt 3.
  const next = { repeatDb: 0.17678, partsDb: 0.20412 };

  it('allows what the farthest of so many channels may lie off', () => {
    // One normal deviation is within 1.95996 of 95 in 100 (JCGM 100:2008, table G.1); the farthest of 100 within 3.4740,
    // of which (0.95^(1/100) = 0.99948720) beyond is 0.0002564 on each side (Python's statistics.NormalDist).
    expect(agreesWithinDb({ repeatDb: 1, partsDb: 0 }, 1)).toBeCloseTo(1.95996, 4);
    expect(agreesWithinDb({ repeatDb: 1, partsDb: 0 }, 100)).toBeCloseTo(3.474, 3);
    expect(agreesWithinDb(next, 1)).toBeCloseTo(1.96 * Math.hypot(0.17678, 0.20412), 3);
    expect(agreesWithinDb(next, 136)).toBeGreaterThan(agreesWithinDb(next, 20));
  });

  it('is never held to less than what a meter repeats to, and never to nothing', () => {
    expect(agreesWithinDb({ repeatDb: 0, partsDb: 0 }, 136)).toBe(0.25);
    expect(() => agreesWithinDb({ repeatDb: Number.NaN, partsDb: 0 }, 3)).toThrow(RangeError);
  });

  it('decides by it: a good meter without new parts is held to less than 0.5 dB, tolerant parts to more', () => {
    const at = (offsetDb: number, given: typeof next) =>
      heldAgainst(rows(36.3, 40.1), rows(36.3 + offsetDb, 40.1), given);
    expect(at(0.4, { repeatDb: 0.05, partsDb: 0 })).toMatchObject({
      ok: true,
      value: { agrees: false, withinDb: 0.25 },
    });
    expect(at(0.9, { repeatDb: 0.05, partsDb: 0.5 })).toMatchObject({ ok: true, value: { agrees: true } });
    expect(at(1.1, { repeatDb: 0.05, partsDb: 0.5 })).toMatchObject({ ok: true, value: { agrees: false } });
  });
});
