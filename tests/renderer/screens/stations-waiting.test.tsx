// @vitest-environment jsdom
import { act, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import type { StationRow } from '../../../core/bridge/records.ts';
import { App } from '../../../renderer/app.tsx';
import { benchOver } from '../bench-over.ts';
import { calm, show } from '../shown-app.tsx';

const rowOf = (n: number, verdict: 'pass' | null): StationRow => ({
  stationId: `station-${n}`,
  name: `Fish Dock ${n}`,
  revision: 1,
  sweepCount: 3,
  openVisit: false,
  standing: {
    sweepId: `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`,
    at: '2026-11-24T10:00:00.000Z',
    purpose: 'as-left',
    state: 'complete',
    verdict,
    headline: verdict === null ? '' : 'On design: worst channel 0.4 dB',
    worstDb: verdict === null ? null : 0.4,
    worstMhz: verdict === null ? null : 870,
  },
});

/** A host whose first ten stations are judged; each further answer comes when it is let go. */
function host(count: number, answer: (of: readonly string[]) => StationRow[]) {
  const letGo: (() => void)[] = [];
  const ids = Array.from({ length: count }, (_, n) => `station-${n}`);
  const bench = benchOver({
    ...calm,
    'stations.list': async ({ atOnce, of = [] }) => {
      if (atOnce === true)
        return { stations: ids.map((_, n) => rowOf(n, n < 10 ? 'pass' : null)), waiting: ids.slice(10) };
      await new Promise<void>((go) => letGo.push(go));
      return { stations: answer(of) };
    },
  });
  const next = () => act(async () => letGo.shift()?.());
  /** How many were asked for each time. */
  const together = () =>
    bench.asked.flatMap(({ name, input }) =>
      name === 'stations.list' && 'of' in (input as object) ? [(input as { of: string[] }).of.length] : [],
    );
  const waiting = () => {
    const { stations } = bench.store.getState();
    return stations.at === 'listed' ? stations.waiting : null;
  };
  return { ...bench, next, together, waiting };
}
const judged = (of: readonly string[]) => of.map((id) => rowOf(Number(id.split('-')[1]), 'pass'));
const verdictOf = (name: string) =>
  screen.getByText(name).closest('.station-row')?.querySelector('.station-row__verdict')?.textContent;

it('shows every station at once, says how far the judging is, and fills the standings in', async () => {
  const bench = host(70, judged);
  // Rows of a long list are measured.
  Object.defineProperty(HTMLElement.prototype, 'scrollHeight', { configurable: true, get: () => 85 });
  await show(bench, <App bench={bench} />);
  await act(() => bench.workbench.arrive());
  expect(document.querySelector('h1')?.textContent).toBe('70 stations');
  expect(verdictOf('Fish Dock 0')).toBe('in order');
  expect(verdictOf('Fish Dock 10')).toBe('being judged');
  const waiting = screen.getByText('Fish Dock 10').closest('.station-row');
  expect(waiting?.querySelector('.station-row__when')?.textContent).toMatch(/3\s*sweeps/);
  const far = () => document.querySelector('.stations__judged');
  expect(far()?.textContent).toContain('0 of 60');
  expect(far()?.querySelector('progress')).toMatchObject({ value: 0, max: 60 });
  await bench.next();
  expect(verdictOf('Fish Dock 10')).toBe('in order');
  expect(far()).toBeNull();
});

it('asks for them in portions, waits no longer for a station that is gone, and says where judging failed', async () => {
  const { store, workbench, next, together, waiting } = host(1100, (of) => {
    if (of.length < 500) throw new Error('the disk is away');
    return judged(of).slice(1);
  });
  await workbench.arrive();
  expect(waiting()).toMatchObject({ of: 1090, ids: { size: 1090 } });
  await next();
  expect(waiting()).toMatchObject({ of: 1090, ids: { size: 590 } });
  await next();
  await next();
  expect(together()).toEqual([500, 500, 90]);
  expect(waiting()?.ids.size).toBe(90);
  expect(store.getState().notice).toMatchObject({
    tone: 'problem',
    text: 'Not every station could be judged.',
  });
});

it('a list that is asked for later makes the earlier one end', async () => {
  const { workbench, next, together, waiting } = host(1100, judged);
  await workbench.arrive();
  await workbench.arrive();
  for (let i = 0; i < 5; i += 1) await next();
  // One of the first list, three of the second.
  expect(together()).toEqual([500, 500, 500, 90]);
  expect(waiting()).toMatchObject({ of: 0, ids: { size: 0 } });
});
