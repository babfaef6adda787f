// @vitest-environment jsdom
import { act, cleanup, fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { Output } from '../../../core/bridge/contract.ts';
import { PeriodScreen } from '../../../renderer/screens/quality/PeriodScreen.tsx';
import { benchOver } from '../bench-over.ts';
import { plain } from '../plain.ts';
import type { Script } from '../scripted-client.ts';
import { press, show } from '../shown-app.tsx';

type Batch = Output<'quality.period'>;
const standing = (verdict: 'pass' | 'fail' | null, worstDb: number | null) => ({
  sweepId: '00000000-0000-4000-8000-000000000001',
  portName: 'forward output',
  atMs: Date.parse('2026-11-20T09:00:00.000Z'),
  verdict,
  headline: '',
  worstDb,
  worstMhz: 867,
});
const visit = (over: Partial<Batch['visits'][number]> = {}): Batch['visits'][number] => ({
  visitId: '00000000-0000-4000-9000-000000000001',
  stationId: 'mill',
  stationName: '07 Mill Lane',
  operator: 'R. Ames',
  ambientC: 12,
  startedMs: Date.parse('2026-11-20T09:00:00.000Z'),
  endedMs: Date.parse('2026-11-20T10:00:00.000Z'),
  note: '',
  sweepCount: 2,
  before: standing('fail', -2.3),
  after: standing('pass', 0.5),
  changes: [{ position: 'input pad', fromDb: 12, toDb: 10 }],
  ...over,
});
const none = {
  visits: 0,
  stations: 0,
  sweeps: 0,
  leftPass: 0,
  leftFail: 0,
  leftUndecided: 0,
  notLeft: 0,
  putRight: 0,
};
const batch = (visits: Batch['visits'], totals: Partial<Batch['totals']> = {}): Batch => ({
  fromMs: 0,
  toMs: 1,
  visits,
  totals: { ...none, visits: visits.length, stations: visits.length, ...totals },
});

async function shown(script: Script) {
  const bench = benchOver(script, { now: '2026-11-25T12:00:00.000Z' });
  await show(bench, <PeriodScreen />);
  return bench;
}
const asked = ({ asked: all }: Awaited<ReturnType<typeof shown>>) =>
  all.filter(({ name }) => name === 'quality.period').map(({ input }) => input);

it('asks first for the week that has gone by, and for others by a press', async () => {
  const screenShown = await shown({ 'quality.period': () => batch([]) });
  const at = (day: number, month = 10) => new Date(2026, month, day).toISOString();
  expect(asked(screenShown)).toEqual([{ from: at(19), to: at(26) }]);
  await press('Last 30 days');
  expect(asked(screenShown)[1]).toEqual({ from: at(27, 9), to: at(26) });
  await act(async () => fireEvent.change(screen.getByLabelText('From'), { target: { value: '2026-11-01' } }));
  expect(asked(screenShown)[2]).toEqual({ from: at(1), to: at(26) });
});

it('says what the visits came to, and shows each with how it was found and left', async () => {
  await shown({
    'quality.period': () =>
      batch([visit(), visit({ visitId: '00000000-0000-4000-9000-000000000002', after: null, changes: [] })], {
        leftPass: 1,
        putRight: 1,
        notLeft: 1,
      }),
  });
  expect(plain(document.querySelector('h1')?.textContent)).toBe(
    '2 visits at 2 stations: 1 left as designed, 1 of them put right, 1 without a sweep as left.',
  );
  const [first, second] = screen
    .getAllByRole('row')
    .slice(1)
    .map((row) => plain(row.textContent));
  expect(first).toContain('20 November 2026');
  expect(first).toContain('07 Mill LaneR. Ames');
  expect(first).toContain('\u22122.3out');
  expect(first).toContain('+0.5in order');
  expect(first).toContain('input pad 12 to 10');
  expect(second).toContain('not read\u2013');
});

it('has an open visit, one that could not be judged, and nobody named', async () => {
  await shown({
    'quality.period': () =>
      batch([visit({ operator: '', endedMs: null, before: standing(null, null), after: null })], {
        notLeft: 1,
      }),
  });
  const [row] = screen
    .getAllByRole('row')
    .slice(1)
    .map((one) => plain(one.textContent));
  expect(row).toContain('07 Mill Lane\u2013');
  expect(row).toContain('\u2013not judged');
  expect(row).toContain('visit open');
});

it('says that nobody was out, that two days are wanted, and why nothing could be read', async () => {
  await shown({ 'quality.period': () => batch([]) });
  expect(screen.getByText('Nobody was out in these days.')).toBeDefined();
  await act(async () => fireEvent.change(screen.getByLabelText('From'), { target: { value: '2026-12-24' } }));
  expect(screen.getByRole('status').textContent).toContain('Say two days');
  cleanup();
  await shown({
    'quality.period': () => {
      throw new Error('the disk is gone');
    },
  });
  expect(screen.getByRole('status').textContent).toBe('the disk is gone');
});

it('leads to a station\u2019s history', async () => {
  const { asked: all } = await shown({ 'quality.period': () => batch([visit()]) });
  await press('07 Mill Lane');
  expect(all.at(-1)).toEqual({ name: 'quality.history', input: { stationId: 'mill', portName: null } });
});
