// @vitest-environment jsdom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { compareSweeps } from '../../../core/drift/compare-sweeps.ts';
import { controlChart } from '../../../core/drift/control-chart.ts';
import { rules, signalsOf } from '../../../core/drift/run-rules.ts';
import { ComparePicture } from '../../../renderer/charts/ComparePicture.tsx';
import { ControlPicture, type ControlPoint } from '../../../renderer/charts/ControlPicture.tsx';
import { controlPlots } from '../../../renderer/charts/control-plots.ts';
import { controlCsv, controlRows } from '../../../renderer/charts/control-values.ts';
import { HistoryPicture } from '../../../renderer/charts/HistoryPicture.tsx';
import { drawnSweeps, overlaidCsv, overlaidRows } from '../../../renderer/charts/overlaid-values.ts';
import nist from '../../data/published/nist-individuals-chart.json' with { type: 'json' };
import { station } from '../sheet-records.ts';

/** A box that has a size at once: a drawing is made for it. */
class SizedObserver {
  private readonly told: ResizeObserverCallback;
  constructor(told: ResizeObserverCallback) {
    this.told = told;
  }
  observe(target: Element) {
    this.told(
      [{ target, contentRect: { width: 900, height: 300 } } as ResizeObserverEntry],
      this as unknown as ResizeObserver,
    );
  }
  unobserve() {}
  disconnect() {}
}
beforeEach(() => {
  vi.stubGlobal('ResizeObserver', SizedObserver);
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, get: () => 900 });
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 300 });
});
afterEach(cleanup);

const plain = (text: string | null | undefined) => (text ?? '').replaceAll('\u00A0', ' ');
const text = () => plain(document.body.textContent);
const DAY_MS = 86_400_000;
const START_MS = Date.UTC(2022, 0, 1, 12);
const chart = controlChart(nist.values);
if (chart === null) throw new Error('no chart');

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: its ten batches as ten sweeps, two months apart.
const signals = signalsOf(nist.values, chart);
const points: readonly ControlPoint[] = nist.values.map((valueDb, i) => ({
  key: `sweep-${i}`,
  sweepId: `sweep-${i}`,
  atMs: START_MS + i * 60 * DAY_MS,
  valueDb,
  isNewest: true,
  breaks: signals.filter(({ place }) => place === i).map(({ rule }) => rules[rule]),
  words: `sweep ${i + 1}`,
}));

describe('a figure over the years', () => {
  const opened = vi.fn<(sweepId: string) => void>();
  const draw = (over: Partial<Parameters<typeof ControlPicture>[0]> = {}) =>
    render(
      <ControlPicture
        title="Flow over the years, dB"
        figure="Flow"
        about="The handbook"
        points={points}
        begins={[]}
        chart={chart}
        trend={null}
        limits={{ fromDb: null, toDb: null }}
        limitsName="design"
        isSigned={false}
        onOpen={opened}
        {...over}
      />,
    );
  const drawing = () => screen.getByRole('slider');

  it('names the published mean and limits at its right end', () => {
    draw();
    expect(text()).toContain('upper limit 55.8');
    expect(text()).toContain('mean 50.8');
    expect(text()).toContain('lower limit 45.8');
    // 3.267 times the published mean range of 1.8778.
    expect(text()).toContain('its limit 6.1');
    expect(document.querySelectorAll('.control__dot, .control__signal')).toHaveLength(10);
    expect(document.querySelectorAll('.control__range')).toHaveLength(9);
  });
  it('is walked sweep by sweep, tells each with its range, and opens it by Enter', () => {
    draw();
    fireEvent.keyDown(drawing(), { key: 'Enter' });
    expect(opened).not.toHaveBeenCalled();
    fireEvent.keyDown(drawing(), { key: 'End' });
    fireEvent.keyDown(drawing(), { key: 'ArrowLeft' });
    expect(plain(drawing().getAttribute('aria-valuetext'))).toMatch(
      /^sweep 9; Flow 53\.6 dB; from the one before 1\.2 dB/,
    );
    fireEvent.keyDown(drawing(), { key: 'Enter' });
    expect(opened).toHaveBeenCalledWith('sweep-8');
  });
  it('shows fewer sweeps when one comes nearer', () => {
    draw();
    fireEvent.keyDown(drawing(), { key: '+' });
    fireEvent.keyDown(drawing(), { key: '+' });
    const near = document.querySelectorAll('.control__dot, .control__signal').length;
    expect(near).toBeGreaterThan(0);
    expect(near).toBeLessThan(10);
    fireEvent.click(screen.getByRole('button', { name: 'All years' }));
    expect(document.querySelectorAll('.control__dot, .control__signal')).toHaveLength(10);
  });
  it('is a table as well, with each broken rule by name', () => {
    const broken = points.map((point, i) =>
      i === 8 ? { ...point, breaks: [rules['beyond-3-sigma']] } : point,
    );
    draw({ points: broken });
    fireEvent.click(screen.getByRole('radio', { name: 'Table' }));
    const rows = screen
      .getAllByRole('row')
      .slice(1)
      .map((row) => plain(row.textContent));
    expect(rows).toHaveLength(10);
    expect(rows[8]).toBe('sweep 953.61.2beyond three sigma (Western Electric 1, Nelson 1)');
  });
  it('has a square where a rule is broken, and a hollow disc where a sweep counts no more', () => {
    const mixed = points.map((point, i) => ({
      ...point,
      isNewest: i > 0,
      breaks: i === 5 ? [rules['beyond-3-sigma']] : [],
    }));
    draw({ points: mixed });
    expect(document.querySelectorAll('.control__signal')).toHaveLength(1);
    expect(document.querySelectorAll('.control__dot--before')).toHaveLength(1);
  });
  it('draws no ranges where there is no control chart, and opens nothing that was not read', () => {
    opened.mockClear();
    draw({ chart: null, points: points.map((point) => ({ ...point, sweepId: null })) });
    expect(document.querySelectorAll('.control__range')).toHaveLength(0);
    fireEvent.keyDown(drawing(), { key: 'Home' });
    fireEvent.keyDown(drawing(), { key: 'Enter' });
    expect(opened).not.toHaveBeenCalled();
    fireEvent.click(screen.getByRole('radio', { name: 'Table' }));
    expect(screen.queryByText('Moving range, dB')).toBeNull();
  });
  it('goes out as numbers: when, dB, range, whether it counts', () => {
    const lines = controlCsv(controlRows({ points, chart })).split('\r\n');
    expect(lines[0]).toBe('read_at,value_db,moving_range_db,counts,rules_broken');
    expect(lines[1]).toBe('2022-01-01T12:00:00.000Z,49.6,,1,0');
    expect(lines[2]).toBe('2022-03-02T12:00:00.000Z,47.6,2,1,0');
    expect(lines).toHaveLength(12);
  });
  it('leaves the ranges a quarter of the height, and draws nothing where there is no room', () => {
    const plots = controlPlots(900, 400, true);
    expect(plots?.ranges?.top).toBeGreaterThan(plots?.values.bottom ?? Number.NaN);
    expect(controlPlots(900, 400, false)?.ranges).toBeNull();
    expect(controlPlots(100, 400, true)).toBeNull();
    expect(controlPlots(900, 100, true)).toBeNull();
  });
});

const design = station.ports[0]?.design;
if (design === undefined) throw new Error('the test station has a design');
const rowsAt = (offDb: number, from = 0) =>
  Array.from({ length: 20 - from }, (_, i) => ({ frequencyMhz: 60 + 6 * (i + from), levelDbmv: 40 + offDb }));
const sweeps = [0, -0.5, -1].map((offDb, i) => ({
  sweepId: `sweep-${i}`,
  label: `1 March 202${i}`,
  atMs: Date.UTC(2020 + i, 2, 1),
  // The newest read one channel fewer.
  rows: rowsAt(offDb, i === 2 ? 1 : 0),
}));

describe('sweeps over each other', () => {
  const draw = () =>
    render(<HistoryPicture title="Sweeps" about="Mill Lane" sweeps={sweeps} design={design} unit="dBmV" />);
  it('draw each once, the newest in full weight, and name the oldest and the newest', () => {
    draw();
    expect(document.querySelectorAll('.history__sweep')).toHaveLength(3);
    expect(document.querySelectorAll('.history__sweep--newest')).toHaveLength(1);
    expect(text()).toContain('1 March 2022');
    expect(text()).toContain('1 March 2020');
    expect(text()).not.toContain('1 March 2021');
  });
  it('tell every sweep at the channel that one walks to, the newest first', () => {
    draw();
    fireEvent.keyDown(screen.getByRole('slider'), { key: 'End' });
    expect(plain(screen.getByRole('slider').getAttribute('aria-valuetext'))).toBe(
      '174 MHz; 1 March 2022, 39.0 dBmV; 1 March 2021, 39.5 dBmV; 1 March 2020, 40.0 dBmV',
    );
  });
  it('are a table with a dash where nothing was read', () => {
    draw();
    fireEvent.click(screen.getByRole('radio', { name: 'Table' }));
    const [, first, second] = screen.getAllByRole('row').map((row) => plain(row.textContent));
    expect(first).toBe('60\u201339.540.0');
    expect(second).toBe('6639.039.540.0');
  });
  it('go out as numbers, a column a sweep', () => {
    const drawn = drawnSweeps(sweeps);
    const lines = overlaidCsv(overlaidRows(drawn), drawn).split('\r\n');
    expect(lines[0]).toBe(
      'frequency_mhz,dbmv_2020-03-01T00:00:00.000Z,dbmv_2021-03-01T00:00:00.000Z,dbmv_2022-03-01T00:00:00.000Z',
    );
    expect(lines[1]).toBe('60,40,39.5,');
  });
});

describe('two sweeps compared', () => {
  const compared = compareSweeps(
    { rows: rowsAt(0), ambientC: 20 },
    { rows: rowsAt(-0.5), ambientC: 30 },
    design,
    (frequencyMhz, ambientC) => (-(ambientC - 20) * frequencyMhz) / 10_000,
  );
  if (!compared.ok) throw new Error(compared.code);
  const draw = () =>
    render(
      <ComparePicture
        title="Later less earlier, dB"
        about="Mill Lane"
        rows={compared.value.rows}
        days={['1 March 2025', '1 June 2026']}
        unit="dBmV"
      />,
    );
  it('are drawn as their difference, with what the weather explains', () => {
    draw();
    expect(document.querySelectorAll('.history__sweep--newest')).toHaveLength(1);
    expect(document.querySelectorAll('.compare__weather')).toHaveLength(1);
    expect(text()).toContain('by the weather');
  });
  it('tell both levels, the difference and the weather at one channel', () => {
    draw();
    fireEvent.keyDown(screen.getByRole('slider'), { key: 'Home' });
    expect(plain(screen.getByRole('slider').getAttribute('aria-valuetext'))).toBe(
      '60 MHz; difference \u22120.5 dB; by the weather \u22120.1 dB; 1 June 2026 39.5; 1 March 2025 40.0',
    );
  });
  it('are copied as numbers', async () => {
    const writeText = vi.fn(async (_text: string) => undefined);
    vi.stubGlobal('navigator', { ...navigator, clipboard: { writeText } });
    draw();
    fireEvent.click(screen.getByRole('button', { name: 'Copy' }));
    fireEvent.click(await screen.findByRole('menuitem', { name: 'Copy numbers' }));
    await vi.waitFor(() => expect(writeText).toHaveBeenCalled());
    const [copied = ''] = writeText.mock.calls[0] ?? [];
    expect(copied.split('\r\n').slice(0, 2)).toEqual([
      'frequency_mhz,earlier_dbmv,later_dbmv,difference_db,by_the_weather_db',
      '60,40,39.5,-0.5,-0.06',
    ]);
    vi.unstubAllGlobals();
  });
});
