// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { App } from '../../../renderer/app.tsx';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { createWorkbench } from '../../../renderer/state/workbench.ts';
import { scriptedClient } from '../scripted-client.ts';
import { sheetOf, station } from '../sheet-records.ts';
import { StillObserver } from '../still-observer.ts';

beforeEach(() => vi.stubGlobal('ResizeObserver', StillObserver));
afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

it('leaves no page blank where a screen fails, and leads back to the stations', async () => {
  vi.spyOn(console, 'error').mockImplementation(() => {});
  const { sheet } = sheetOf([]);
  const { client } = scriptedClient({
    'host.describe': () => ({
      version: '0.1.0',
      host: 'memory',
      archivePath: '/data/tiltwright.sqlite',
      recoveredSweeps: [],
      profiles: [],
    }),
    'meters.current': () => ({ meter: null }),
    'stations.list': () => ({ stations: [] }),
    // A sheet as only a fault of the program could make one.
    'stations.open': () => ({ ...sheet, sweeps: [{}] as never, visits: null as never }),
  });
  const store = createWorkbenchStore();
  const workbench = createWorkbench(
    client,
    store,
    createLiveFeed(() => {}),
  );
  workbench.listen();
  const bench = { store, workbench, feed: createLiveFeed(() => {}), now: () => '2026-11-25T10:00:00.000Z' };
  render(<App bench={bench} />);
  await act(() => workbench.arrive());
  await act(() => workbench.openStation(station.id));
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('This screen could not be drawn.');
  await act(async () => {
    fireEvent.click(screen.getByRole('button', { name: 'Back to the stations' }));
  });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^Read the station/);
});
