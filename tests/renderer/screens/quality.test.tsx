// @vitest-environment jsdom
import { act, fireEvent, screen } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import type { Input } from '../../../core/bridge/contract.ts';
import type { HistorySweep, QualityStation, QualityTrend } from '../../../core/bridge/quality-calls.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { station, sweepOf } from '../sheet-records.ts';
import { showApp } from '../shown-app.tsx';

beforeEach(() => {
  // A list that draws only what is in sight needs a size to be in sight of.
  Object.defineProperty(HTMLElement.prototype, 'clientWidth', { configurable: true, get: () => 1200 });
  Object.defineProperty(HTMLElement.prototype, 'clientHeight', { configurable: true, get: () => 700 });
});

const NOW = '2026-11-25T12:00:00.000Z';
const row = (n: number, over: Partial<QualityStation> = {}): QualityStation => ({
  stationId: `station-${n}`,
  name: `${n} Fish Dock`,
  sweepCount: 3,
  openVisit: false,
  lastVisitAt: '2026-11-01T12:00:00.000Z',
  standing: null,
  reserve: null,
  ...over,
});
const drift = (stationId: string): QualityTrend => ({
  stationId,
  leftAsDesigned: true,
  drift: { state: 'drifting', words: 'level falls 0.5 dB a year', perYearDb: -0.5, line: [0, -0.2, -0.4] },
});
const past = (n: number, levelDb: number): HistorySweep => ({
  sweepId: sweepOf({ n, offDb: () => levelDb }).summary.sweepId,
  visitId: `00000000-0000-4000-9000-00000000000${n}`,
  at: `202${n}-03-03T12:00:00.000Z`,
  purpose: 'as-found',
  operator: 'R. Ames',
  ambientC: 14,
  revision: 1,
  pluggedIn: { 'input pad': 6 },
  figures: { verdict: 'pass', levelDb, tiltDb: 0, flatnessDb: 1, worstDb: levelDb, worstMhz: 870 },
  why: null,
  reserveDb: null,
});

const opened = (script: Script) => showApp(script, { now: NOW });
const pages = (stations: readonly QualityStation[]): Script => ({
  'quality.stations': ({ after, limit }) => {
    const page = stations.slice(after, after + limit);
    const next = after + page.length;
    return { stations: [...page], total: stations.length, next: next < stations.length ? next : null };
  },
  'quality.trends': ({ stationIds }) => ({ trends: stationIds.map(drift) }),
});

it('reads the stations page by page, then their histories, and says what to look at', async () => {
  const { workbench, asked } = await opened(pages(Array.from({ length: 260 }, (_, n) => row(n))));
  await act(() => workbench.openRecords());
  expect(asked.filter(({ name }) => name === 'quality.stations').map(({ input }) => input)).toEqual([
    { after: 0, limit: 100 },
    { after: 100, limit: 1000 },
  ]);
  expect(document.querySelector('h1')?.textContent).toBe('260 stations: 260 drifting');
  expect(document.querySelector('.records__reading')?.textContent).toBe('');
});

it('draws only the rows in sight, and sorts by a heading', async () => {
  const { workbench, store } = await opened(pages(Array.from({ length: 260 }, (_, n) => row(n))));
  await act(() => workbench.openRecords());
  const drawn = document.querySelectorAll('.records-row').length;
  expect(drawn).toBeGreaterThan(5);
  expect(drawn).toBeLessThan(60);
  fireEvent.click(screen.getByLabelText('Station, sorted up'));
  expect(store.getState().recordsSort).toEqual({ by: 'name', isDown: true });
  expect(document.querySelector('.records-row')?.textContent).toContain('259 Fish Dock');
});

it('an empty list says so and shows all again', async () => {
  const { workbench } = await opened(pages([row(1)]));
  await act(() => workbench.openRecords());
  fireEvent.change(screen.getByPlaceholderText('name or finding'), { target: { value: 'lighthouse' } });
  expect(screen.getByText('No station has these words.')).toBeTruthy();
  fireEvent.click(screen.getByRole('button', { name: 'Show all' }));
  expect(document.querySelectorAll('.records-row')).toHaveLength(1);
});

it('says why the records could not be read', async () => {
  const { workbench } = await opened({});
  await act(() => workbench.openRecords());
  expect(screen.getByText('The records could not be read.')).toBeTruthy();
});

const historyOf = (sweeps: readonly HistorySweep[]): Script => ({
  'quality.history': () => ({
    station,
    portName: 'forward output',
    portNames: ['forward output'],
    sweeps: [...sweeps],
    reserves: [],
  }),
  'sweeps.open': ({ sweepId }) => {
    const n = sweeps.findIndex((one) => one.sweepId === sweepId) + 1;
    return sweepOf({ n, offDb: () => sweeps[n - 1]?.figures?.levelDb ?? 0 });
  },
});

it('a history says what drifts, how the temperature was treated, and lists the newest sweep first', async () => {
  const { workbench } = await opened(historyOf([0, -0.4, -0.8, -1.2].map((db, i) => past(i + 1, db))));
  await act(() => workbench.openHistory(station.id, null));
  expect(document.querySelector('h1')?.textContent).toBe('Level falls 0.4 dB a year');
  expect(screen.getByText(/Not brought to one temperature/)).toBeTruthy();
  const days = screen.getAllByRole('checkbox').map((box) => plain(box.getAttribute('aria-label')));
  expect(days[0]).toBe('Compare 3 March 2024, as found');
});

/** What is written and stands in no figure that can be pressed. */
const unexplained = (selector: string): readonly string[] =>
  [...document.querySelectorAll(selector)]
    .filter((one) => /\d/.test(one.textContent ?? '') && one.querySelector('.how-button') === null)
    .map((one) => plain(one.textContent));

it('every figure of a history can be pressed for how it came about', async () => {
  const { workbench } = await opened(historyOf([0, -0.4, -0.8, -1.2].map((db, i) => past(i + 1, db))));
  await act(() => workbench.openHistory(station.id, null));
  expect(document.querySelectorAll('.history__slopes .how-button').length).toBe(6);
  expect(document.querySelectorAll('.history__list .how-button').length).toBe(4);
  expect(unexplained('.history__slopes td, .history__leaves, .history__part--years .history__words')).toEqual(
    [],
  );
  const slope = screen.getByRole('button', { name: /^Level, high, its trend/ });
  expect(plain(slope.textContent)).toMatch(/^\u22120\.40 \u00B1/);
  await act(async () => fireEvent.click(slope));
  const said = plain(screen.getByRole('dialog').textContent);
  expect(said).toContain('through the figure of 4 sweeps');
  expect(said).toContain('degrees of freedom2');
  expect(said).toContain('Applied Regression Analysis');
});

it('every figure in the table of all stations can be pressed as well, without opening the row', async () => {
  const standing = {
    ...({ sweepId: past(1, 0).sweepId, at: past(1, 0).at, purpose: 'as-found', state: 'complete' } as const),
    verdict: 'fail',
    headline: 'out',
    worstDb: -2.4,
    worstMhz: 867,
  } as const;
  const { workbench, store } = await opened(
    pages([row(1, { standing, reserve: { leftDb: 3.6, askedDb: 4 } })]),
  );
  await act(() => workbench.openRecords());
  expect(document.querySelectorAll('.records-row .how-button').length).toBe(3);
  await act(async () => fireEvent.click(screen.getByRole('button', { name: /^Reserve, 1 Fish Dock/ })));
  expect(plain(screen.getByRole('dialog').textContent)).toContain('3.6 dB of 4.0 dB');
  expect(store.getState().history.at).toBe('none');
});

it('with one sweep only it says what is missing for a trend', async () => {
  const { workbench } = await opened(historyOf([past(1, 0)]));
  await act(() => workbench.openHistory(station.id, null));
  expect(document.querySelector('h1')?.textContent).toBe('No trend yet');
  expect(plain(screen.getByText(/A trend needs/).textContent)).toContain('2 more visits');
});

it('compares two that are ticked, the earlier first', async () => {
  const { workbench, store } = await opened(historyOf([0, -0.4, -0.8].map((db, i) => past(i + 1, db))));
  await act(() => workbench.openHistory(station.id, null));
  const [newest, , oldest] = screen.getAllByRole('checkbox');
  if (newest === undefined || oldest === undefined) throw new Error('no boxes');
  fireEvent.click(newest);
  fireEvent.click(oldest);
  await act(async () => fireEvent.click(screen.getByRole('button', { name: 'Compare the two' })));
  const { history } = store.getState();
  expect(history.at === 'open' && history.compared).toEqual([past(1, 0).sweepId, past(3, 0).sweepId]);
  expect(plain(screen.getByText(/dB in the mean/).textContent)).toContain('\u22120.8 dB in the mean');
});

it('a station without a sweep says how its history begins', async () => {
  const { workbench } = await opened(historyOf([]));
  await act(() => workbench.openHistory(station.id, null));
  expect(screen.getByText(/begin a visit and read a port/)).toBeTruthy();
});

async function historyAnswer(script: Script, input: Input<'quality.history'>) {
  const answer = await script['quality.history']?.(input);
  if (answer === undefined) throw new Error('no history');
  return answer;
}

it('a history with set-ups has the reserve over the years, against what was asked for on each day', async () => {
  const script = historyOf([past(1, 0), past(2, 0), past(3, 0)]);
  const { workbench } = await opened({
    ...script,
    'quality.history': async (input) => ({
      ...(await historyAnswer(script, input)),
      reserves: [1, 2, 3].map((n) => ({
        visitId: past(n, 0).visitId,
        at: past(n, 0).at,
        leftDb: 6.4 - 0.4 * n,
        askedDb: n === 3 ? 4 : 6,
      })),
    }),
  });
  await act(() => workbench.openHistory(station.id, null));
  await act(async () => fireEvent.click(screen.getByRole('radio', { name: 'Reserve' })));
  await act(async () =>
    fireEvent.click(screen.getAllByRole('radio', { name: 'Table' }).at(-1) as HTMLElement),
  );
  const rows = screen.getAllByRole('row').map((one) => plain(one.textContent));
  expect(rows).toContain('3 March 2021, 6.0 left of 6.0 asked for0.0');
  expect(rows).toContain('3 March 2023, 5.2 left of 4.0 asked for+1.2');
  expect(screen.queryByText('Moving range, dB')).toBeNull();
});

it('a history without a set-up has no reserve to choose', async () => {
  const { workbench } = await opened(historyOf([past(1, 0)]));
  await act(() => workbench.openHistory(station.id, null));
  expect(screen.queryByRole('radio', { name: 'Reserve' })).toBeNull();
});

it('of very many stations the first screen draws those in sight, and finds any of them by its words', async () => {
  const stations = Array.from({ length: 5000 }, (_, n) => ({
    stationId: `station-${n}`,
    name: `${n} Fish Dock`,
    revision: 1,
    sweepCount: 0,
    openVisit: false,
    standing: null,
  }));
  // Rows of a long list are measured.
  Object.defineProperty(HTMLElement.prototype, 'scrollHeight', { configurable: true, get: () => 85 });
  await opened({ 'stations.list': () => ({ stations }) });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toContain('5');
  const drawn = () => document.querySelectorAll('.station-row');
  expect(drawn().length).toBeGreaterThan(0);
  expect(drawn().length).toBeLessThan(60);
  await act(async () => fireEvent.change(screen.getByLabelText('Find'), { target: { value: '4321 dock' } }));
  expect([...drawn()].map((one) => one.querySelector('.station-row__name')?.textContent)).toEqual([
    '4321 Fish Dock',
  ]);
  await act(async () => fireEvent.change(screen.getByLabelText('Find'), { target: { value: 'nowhere' } }));
  await act(async () => fireEvent.click(screen.getByRole('button', { name: 'Show all' })));
  expect(drawn().length).toBeGreaterThan(0);
});
