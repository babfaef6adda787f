import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { chartRows, POINT_BUDGET, thinned } from '../../../renderer/charts/rows.ts';
import { apart, levelPlot, levelSpan, ticksOf, xAt, yAt } from '../../../renderer/charts/scale.ts';
import { station } from '../sheet-records.ts';

const design = station.ports[0]?.design ?? null;

it('joins sweeps by frequency, in rising order, with the design beside each and at its ends', () => {
  const rows = chartRows({
    design,
    shown: [
      { frequencyMhz: 462, levelDbmv: 40 },
      { frequencyMhz: 100, levelDbmv: null },
    ],
    found: [{ frequencyMhz: 462, levelDbmv: 39 }],
    predicted: [{ frequencyMhz: 462, levelDbmv: 41.5 }],
    targets: null,
  });
  expect(rows.map(({ frequencyMhz }) => frequencyMhz)).toEqual([54, 100, 462, 870]);
  // Halfway between 54 and 870 MHz the design asks for 41 dBmV.
  expect(rows[2]).toMatchObject({
    targetDbmv: 41,
    foundDbmv: 39,
    deviationDb: -1,
    predictedDeviationDb: 0.5,
  });
  expect(rows[1]).toMatchObject({ silent: true, shownDbmv: null, deviationDb: null });
});

it('asks for nothing outside the design, and draws a sweep without one', () => {
  const rows = chartRows({
    design,
    shown: [{ frequencyMhz: 950, levelDbmv: 40 }],
    found: null,
    predicted: null,
    targets: null,
  });
  expect(rows.at(-1)).toMatchObject({ targetDbmv: null, bandDbmv: null, deviationDb: null });
  const bare = chartRows({
    design: null,
    shown: [{ frequencyMhz: 5, levelDbmv: 1 }],
    found: null,
    predicted: null,
    targets: null,
  });
  expect(bare).toHaveLength(1);
});

it('thins to its budget and keeps the ends and the worst carrier', () => {
  const shown = Array.from({ length: 2000 }, (_, i) => ({
    frequencyMhz: 54 + i * 0.4,
    levelDbmv: (design === null ? 0 : 36 + (i * 4) / 816) + (i === 1234 ? -9 : 0),
  }));
  const rows = chartRows({ design, shown, found: null, predicted: null, targets: null });
  const few = thinned(rows);
  const worst = rows.reduce((a, b) => (Math.abs(b.deviationDb ?? 0) > Math.abs(a.deviationDb ?? 0) ? b : a));
  expect(few.length).toBeLessThanOrEqual(POINT_BUDGET + 4);
  expect(few).toContain(worst);
  expect(few[0]).toBe(rows[0]);
  expect(few.at(-1)).toBe(rows.at(-1));
  expect(thinned(rows.slice(0, 100))).toHaveLength(100);
});

it('gives levels an axis of even decibels that is never flatter than 12 dB', () => {
  expect(levelSpan([35, 47])).toEqual({ low: 34, high: 48 });
  const flat = levelSpan([40, 40.2]);
  expect(flat.high - flat.low).toBeGreaterThanOrEqual(12);
  expect(flat.low % 2).toBe(0);
  expect(levelSpan([])).toEqual({ low: 30, high: 50 });
  expect(ticksOf({ low: 34, high: 48 }, 8)).toEqual([34, 36, 38, 40, 42, 44, 46, 48]);
  expect(ticksOf({ low: 54, high: 870 }, 10)).toEqual([100, 200, 300, 400, 500, 600, 700, 800]);
});

it('puts the ends of both axes at the ends of the plot', () => {
  const plot = levelPlot(900, 400);
  expect(xAt(plot, { low: 54, high: 870 }, 54)).toBe(plot.left);
  expect(xAt(plot, { low: 54, high: 870 }, 870)).toBe(plot.right);
  expect(yAt(plot, { low: 34, high: 48 }, 34)).toBe(plot.bottom);
  expect(yAt(plot, { low: 34, high: 48 }, 48)).toBe(plot.top);
});

it('moves labels apart without changing their order, and keeps them in the plot', () => {
  const plot = levelPlot(900, 400);
  const at = (key: string, y: number) => ({ key, text: key, x: 0, y });
  const placed = apart([at('c', 390), at('a', 380), at('b', 381)], 20, plot);
  expect(placed.map(({ key }) => key)).toEqual(['a', 'b', 'c']);
  placed.slice(1).forEach((label, i) => {
    expect(label.y - (placed[i]?.y ?? 0)).toBeGreaterThanOrEqual(20 - 1e-9);
  });
  expect(placed.at(-1)?.y).toBeLessThanOrEqual(plot.bottom);
});

// recharts restarts its animation at every change of state; a forgotten one shows a sweep that is not there yet.
it('animates no line, and shows no dot, in any chart', () => {
  const folder = new URL('../../../renderer/charts/', import.meta.url);
  const charts = readdirSync(folder)
    .filter((name) => name.endsWith('.tsx'))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
    .filter((text) => text.includes("from 'recharts'"));
  expect(charts.length).toBeGreaterThan(0);
  for (const text of charts) {
    const drawn = [...text.matchAll(/<(Line|Area|Bar)\b[\s\S]*?\/>/g)].map((match) => match[0]);
    expect(drawn.length).toBeGreaterThan(0);
    for (const one of drawn) expect(one).toMatch(/isAnimationActive=\{false\}|\{\.\.\.(line|LINE|BAND)\}/);
    expect(text).toMatch(/const (line|LINE) = \{[\s\S]*?isAnimationActive: false[\s\S]*?\}/);
    expect(text).not.toMatch(/isAnimationActive(=\{true\}|: true)|\bdot(=\{true\}|: true)|<Brush|<Tooltip/);
  }
});
