// @vitest-environment jsdom
import { cleanup, render } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { rowTargets } from '../../../core/line/row-targets.ts';
import { DeviationStrip } from '../../../renderer/charts/DeviationStrip.tsx';
import { levelTicks } from '../../../renderer/charts/level-ticks.ts';
import { type ChartRow, chartRows } from '../../../renderer/charts/rows.ts';
import { axisUnitAt } from '../../../renderer/charts/scale.ts';
import { shapeOf, signalRuns, signalWords } from '../../../renderer/charts/signal-marks.ts';
import { levelWord } from '../../../renderer/format.ts';
import { station } from '../sheet-records.ts';

afterEach(cleanup);
const design = station.ports[0]?.design;
if (design === undefined) throw new Error('the test station has a design');

/** Analog to 300 MHz, 256-QAM 6 dB down above it, a pilot among it: each on its own target, as its kind is carried. */
const mixed = Array.from({ length: 100 }, (_, i) => {
  const frequencyMhz = 57 + 6 * i;
  const line = 36 + (10 * (frequencyMhz - 54)) / 816;
  if (i === 70) return { frequencyMhz, levelDbmv: line, kind: 'cw' as const };
  return i < 40
    ? { frequencyMhz, levelDbmv: line, kind: 'analog' as const }
    : { frequencyMhz, levelDbmv: line - 6, kind: 'qam' as const, modulation: '256-QAM' };
});
function rowsOf(shown: typeof mixed): readonly ChartRow[] {
  if (design === undefined) throw new Error('no design');
  const targets = rowTargets(shown, design);
  const byFrequency = new Map(
    shown.flatMap((row, i) => {
      const target = targets[i];
      return target == null ? [] : [[row.frequencyMhz, target] as const];
    }),
  );
  return chartRows({ design, shown, found: null, predicted: null, targets: byFrequency });
}

describe('channels of several kinds', () => {
  it('lie on their own targets, and between channels the target is that of the nearest', () => {
    const rows = rowsOf(mixed);
    const off = rows.flatMap(({ deviationDb }) => (deviationDb === null ? [] : [Math.abs(deviationDb)]));
    expect(off).toHaveLength(100);
    expect(Math.max(...off)).toBeLessThan(1e-9);
    expect(rows[0]).toMatchObject({ frequencyMhz: 54, targetDbmv: 36 });
    // The design ends at 870 MHz with 46 dBmV; the channel nearest to it is QAM, carried 6 dB down.
    expect(rows.at(-1)).toMatchObject({ frequencyMhz: 870, targetDbmv: 40 });
  });

  it('have a shape each, and a bar where all are alike', () => {
    expect(
      ['analog', '256-QAM', '64-QAM at -10 dB', 'OFDM', 'pilot', 'unknown kind', null].map(shapeOf),
    ).toEqual(['arrow', 'bar', 'bar', 'hollow', 'pin', 'stem', 'bar']);
    const strip = (rows: readonly ChartRow[]) =>
      render(
        <DeviationStrip
          rows={rows}
          width={900}
          frequencySpan={{ low: 54, high: 870 }}
          deviationSpan={{ low: -2.4, high: 2.4 }}
          toleranceDb={1}
          predictionOpen={false}
        />,
      ).container;
    const many = strip(rowsOf(mixed));
    expect(many.querySelectorAll('path.mark-of')).toHaveLength(40);
    expect(many.querySelectorAll('g.mark-of circle')).toHaveLength(1);
    expect([...many.querySelectorAll('.strip__word')].map(({ textContent }) => textContent).sort()).toEqual(
      expect.arrayContaining(['256-QAM', 'analog', 'pilot']),
    );
    cleanup();
    const one = strip(rowsOf(mixed.slice(0, 40)));
    expect(one.querySelectorAll('.strip__word')).toHaveLength(0);
    expect(one.querySelectorAll('rect.mark-of')).toHaveLength(40);
  });

  it('are named over their runs, no two names touching, none outside the plot', () => {
    const runs = signalRuns(rowsOf(mixed));
    expect(runs.map(({ word, count }) => [word, count])).toEqual([
      ['analog', 40],
      ['256-QAM', 30],
      ['pilot', 1],
      ['256-QAM', 29],
    ]);
    const x = (frequencyMhz: number) => 52 + ((frequencyMhz - 54) / 816) * 700;
    const words = signalWords(runs, x, { left: 52, right: 752 });
    const spans = words
      .map(({ text, x: at }) => [at - text.length * 4, at + text.length * 4] as const)
      .sort(([a], [b]) => a - b);
    spans.forEach(([from], i) => {
      expect(from).toBeGreaterThanOrEqual(i === 0 ? 52 : (spans[i - 1]?.[1] ?? 0));
    });
    expect(spans.at(-1)?.[1]).toBeLessThanOrEqual(752);
  });
});

describe('the axis of levels', () => {
  const span = { low: 34, high: 48 };

  it('has round numbers of the unit that was chosen, where they belong', () => {
    expect(levelTicks(span, 'dBmV', 8).map(({ text }) => text)).toEqual([
      '34',
      '36',
      '38',
      '40',
      '42',
      '44',
      '46',
      '48',
    ]);
    expect(levelTicks(span, 'dBuV', 8).map(({ text }) => text)).toContain('100');
    // 0 dBm in 75 ohm is 48.75 dBmV (definition), so -10 dBm stands at 38.75 dBmV.
    expect(levelTicks(span, 'dBm75', 8).find(({ text }) => text === '\u221210')?.levelDbmv).toBeCloseTo(
      38.7506,
      4,
    );
    // 0 dBm in 50 ohm is 46.99 dBmV (definition).
    expect(levelTicks(span, 'dBm50', 8).find(({ text }) => text === '\u221210')?.levelDbmv).toBeCloseTo(
      36.9897,
      4,
    );
    // 40 dBmV is 100 mV (definition: 0 dBmV = 1 mV).
    expect(levelTicks(span, 'mV', 8).find(({ text }) => text === '100')?.levelDbmv).toBeCloseTo(40, 9);
  });

  it('stand under a unit that is not cut off at the edge of the picture, however long', () => {
    for (const unit of ['dBmV', 'dBuV', 'dBm75', 'mV'] as const)
      expect(axisUnitAt(levelWord(unit), 44)).toEqual({ x: 44, anchor: 'end' });
    expect(axisUnitAt(levelWord('dBm50'), 44)).toEqual({ x: 1, anchor: 'start' });
  });

  it.each(['dBmV', 'dBuV', 'dBm75', 'dBm50', 'mV'] as const)(
    'has some, and no more than there is room for, in %s',
    (unit) => {
      for (const low of [-60, -3, 30])
        for (const reach of [12, 20, 40]) {
          const ticks = levelTicks({ low, high: low + reach }, unit, 8);
          expect(ticks.length).toBeLessThanOrEqual(9);
          expect(ticks.length).toBeGreaterThanOrEqual(2);
        }
    },
  );
});
