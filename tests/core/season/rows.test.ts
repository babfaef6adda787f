import { describe, expect, it } from 'vitest';
import { season, seasonRow } from '../../../core/season/rows.ts';
import { harbourPlan, harbourStation } from './harbour-station.ts';

const table = (...asked: Parameters<typeof season>) => {
  const result = season(...asked);
  if (!result.ok) throw new Error(result.help);
  return result.value;
};

// Computed outside this project, in Python from the contract's formulas.
describe('a row', () => {
  it.each([
    ['auto', 4, 6, -40, 36, 46, -2.64, false],
    ['auto', 0.5, 1.5, -40, 36.284015541099784, 47.14, -1.5, true],
    ['auto', 0.5, 1.5, 45, 35.85051813626327, 45.4, 0.5, true],
    ['manual', 4, 6, -40, 36.65772020044162, 48.64, 0, false],
    ['thermal', 4, 6, -40, 36.13154404008832, 46.528, -2.112, false],
    ['thermal', 0.8, 1.5, 45, 35.92525906813163, 45.7, 0.8, true],
  ] as const)('in %s, +%d -%d dB, at %d C', (mode, upDb, downDb, ambientC, low, high, control, atLimit) => {
    const row = seasonRow(harbourPlan({ mode, upDb, downDb, thermalTracking: 0.8 }), ambientC);
    expect(row).toMatchObject({ ambientC, mode, atLimit });
    expect(row.lowDbmv).toBeCloseTo(low, 9);
    expect(row.highDbmv).toBeCloseTo(high, 9);
    expect(row.controlDb).toBeCloseTo(control, 9);
  });

  it.each([
    [-35, 36.24268718311707, 46.97411355618831, -1.2],
    [40, 35.89187417604862, 45.56599755482652, 1.0],
  ])('with different top frequencies at %d C', (ambientC, low, high, control) => {
    const plan = harbourPlan(
      { topMhz: 750, setAtC: 10, upDb: 1, downDb: 1.2 },
      { lossDb: 30, topMhz: 1000, perDegreeC: 0.0018 },
    );
    const row = seasonRow(plan, ambientC);
    expect(row.lowDbmv).toBeCloseTo(low, 9);
    expect(row.highDbmv).toBeCloseTo(high, 9);
    expect(row.controlDb).toBeCloseTo(control, 9);
  });
});

describe('the table', () => {
  it('goes from the coldest to the hottest, -30 to 45 C in steps of 5 unless told', () => {
    const { rows } = table(harbourStation());
    expect(rows.map((row) => row.ambientC)).toEqual([
      -30, -25, -20, -15, -10, -5, 0, 5, 10, 15, 20, 25, 30, 35, 40, 45,
    ]);
    expect(new Set(rows.map((row) => row.mode))).toEqual(new Set(['auto']));
  });

  it('keeps decimal steps decimal and ends with the last whole step', () => {
    const { rows } = table(harbourStation(), { fromC: -0.3, toC: 0.35, stepC: 0.1 });
    expect(rows.map((row) => row.ambientC + 0)).toEqual([-0.3, -0.2, -0.1, 0, 0.1, 0.2, 0.3]);
  });

  // 0.044 dB a degree: 0.5 dB up ends at 31.36 C, 1.5 dB down at -14.09 C.
  it('names the first limit going out from where it was set, in the table and exactly', () => {
    const answer = table(harbourStation({ upDb: 0.5, downDb: 1.5 }));
    expect(answer).toMatchObject({ firstLimitHotC: 35, firstLimitColdC: -15 });
    expect(answer.exactLimitHotC).toBeCloseTo(20 + 0.5 / 0.044, 9);
    expect(answer.exactLimitColdC).toBeCloseTo(20 - 1.5 / 0.044, 9);
  });

  it('names none where the table meets none', () => {
    expect(table(harbourStation())).toMatchObject({ firstLimitHotC: null, firstLimitColdC: null });
    expect(table(harbourStation({ upDb: 0, downDb: 0 }), undefined, 'manual')).toMatchObject({
      firstLimitHotC: null,
      firstLimitColdC: null,
      exactLimitHotC: null,
    });
  });

  it('keeps hot and cold apart where the whole table lies on one side of where it was set', () => {
    const answer = table(harbourStation({ setAtC: 50, downDb: 0.5 }));
    expect(answer.firstLimitHotC).toBeNull();
    expect(answer.firstLimitColdC).toBe(35);
  });

  it.each([
    [{ fromC: 10, toC: 0, stepC: 5 }],
    [{ fromC: 0, toC: 10, stepC: 0 }],
    [{ fromC: 0, toC: 10, stepC: -1 }],
    [{ fromC: Number.NaN, toC: 10, stepC: 1 }],
    [{ fromC: 0, toC: 10, stepC: 1e-9 }],
    [{ fromC: -300, toC: 10, stepC: 5 }],
  ])('refuses %o', (range) => {
    const result = season(harbourStation(), range);
    expect(result.ok ? 'taken' : result.code).toBe('bad-range');
  });

  it('refuses a station without a span', () => {
    const { span: _gone, ...bare } = harbourStation();
    const result = season(bare);
    expect(result.ok ? 'taken' : result.code).toBe('no-span');
  });
});
