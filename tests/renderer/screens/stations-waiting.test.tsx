// @vitest-environment jsdom
import { act, cleanup, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { StationRow } from '../../../core/bridge/records.ts';
import { App } from '../../../renderer/app.tsx';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { createWorkbench } from '../../../renderer/state/workbench.ts';
import { type Script, scriptedClient } from '../scripted-client.ts';
import { StillObserver } from '../still-observer.ts';

beforeEach(() => {
  vi.stubGlobal('ResizeObserver', StillObserver);
  Element.prototype.scrollIntoView = () => {};
});
afterEach(cleanup);

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
const COUNT = 300;
const ids = Array.from({ length: COUNT }, (_, n) => `station-${n}`);

/** A host whose first ten stations are judged; each further answer comes when it is let go. */
async function arrived(answer: (of: readonly string[]) => StationRow[]) {
  const letGo: (() => void)[] = [];
  const script: Script = {
    'host.describe': () => ({
      version: '0',
      host: 'memory',
      archivePath: '/a',
      recoveredSweeps: [],
      profiles: [],
    }),
    'meters.current': () => ({ meter: null }),
    'stations.list': async ({ atOnce, of = [] }) => {
      if (atOnce === true)
        return { stations: ids.map((_, n) => rowOf(n, n < 10 ? 'pass' : null)), waiting: ids.slice(10) };
      await new Promise<void>((go) => letGo.push(go));
      return { stations: answer(of) };
    },
  };
  const store = createWorkbenchStore();
  const { client, asked } = scriptedClient(script);
  const workbench = createWorkbench(
    client,
    store,
    createLiveFeed(() => {}),
  );
  // Rows of a long list are measured.
  Object.defineProperty(HTMLElement.prototype, 'scrollHeight', { configurable: true, get: () => 85 });
  render(
    <App
      bench={{ store, workbench, feed: createLiveFeed(() => {}), now: () => '2026-11-25T10:00:00.000Z' }}
    />,
  );
  await act(() => workbench.arrive());
  const next = () => act(async () => letGo.shift()?.());
  return { store, asked, next, workbench };
}
const judged = (of: readonly string[]) => of.map((id) => rowOf(Number(id.split('-')[1]), 'pass'));
const verdictOf = (name: string) =>
  screen.getByText(name).closest('.station-row')?.querySelector('.station-row__verdict')?.textContent;

it('shows every station at once, says how far the judging is, and fills the standings in', async () => {
  const { asked, next } = await arrived(judged);
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('300 stations');
  expect(verdictOf('Fish Dock 0')).toBe('in order');
  const waiting = screen.getByText('Fish Dock 10').closest('.station-row');
  expect(verdictOf('Fish Dock 10')).toBe('being judged');
  expect(waiting?.querySelector('.station-row__when')?.textContent).toMatch(/3\s*sweeps/);
  const far = () => screen.queryByRole('progressbar', { name: 'Stations judged anew' });
  expect(far()).toHaveProperty('value', 0);
  expect(document.querySelector('.stations__judged')?.textContent).toContain('0 of 290');
  await next();
  expect(far()).toHaveProperty('value', 250);
  expect(verdictOf('Fish Dock 10')).toBe('in order');
  await next();
  expect(far()).toBeNull();
  expect(document.body.textContent).not.toContain('being judged');
  const chunks = asked.filter(({ name }) => name === 'stations.list').slice(1);
  expect(chunks.map(({ input }) => (input as { of: string[] }).of.length)).toEqual([250, 40]);
});

it('waits no longer for a station that is gone, and says where judging failed', async () => {
  const { store, next } = await arrived((of) => {
    if (of.length < 250) throw new Error('the disk is away');
    return judged(of).slice(1);
  });
  await next();
  const { stations } = store.getState();
  expect(stations.at === 'listed' && stations.waiting.ids.has('station-10')).toBe(false);
  await next();
  expect(store.getState().notice).toMatchObject({ tone: 'problem' });
  expect(document.body.textContent).toContain('Not every station could be judged.');
});

it('a list that is asked for later makes the earlier one end', async () => {
  const { asked, next, workbench } = await arrived(judged);
  await act(() => workbench.arrive());
  await next();
  await next();
  await next();
  await next();
  const chunks = asked.filter(({ name, input }) => name === 'stations.list' && 'of' in (input as object));
  // One of the first list, two of the second.
  expect(chunks).toHaveLength(3);
});
