import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import type { ReactNode, StrictMode } from 'react';
import { afterEach, vi } from 'vitest';
import { App } from '../../renderer/app.tsx';
import { type Bench, BenchContext } from '../../renderer/state/use-workbench.ts';
import { benchOver, type Given } from './bench-over.ts';
import type { Script } from './scripted-client.ts';
import { exact } from './sheet-records.ts';
import { StillObserver } from './still-observer.ts';

afterEach(cleanup);

/** A host with nothing to tell: no meter, no station, no count of the truck, no notes, and a meter that is never wrong. */
export const calm = {
  'host.describe': () => ({
    version: '0.1.0',
    host: 'memory',
    archivePath: '/data/tiltwright.sqlite',
    recoveredSweeps: [],
    profiles: [],
  }),
  'settings.read': () => ({ settings: exact, revision: 1, changedAt: null }),
  'truck.read': () => ({ truck: null, revision: 1, changedAt: null, kit: [] }),
  'meters.current': () => ({ meter: null }),
  'live.current': () => ({ live: null }),
  'stations.list': () => ({ stations: [] }),
  'notes.read': ({ stationId }) => ({ stationId, notes: null, revision: 0, changedAt: null }),
} satisfies Script;

/** jsdom has no layout, so nothing can change its size or scroll there. */
function withoutLayout() {
  vi.stubGlobal('ResizeObserver', StillObserver);
  Element.prototype.scrollIntoView = () => {};
}

/** The whole page, arrived at a calm host that answers otherwise only where the script says so, and at a station if one is named. */
export async function showApp(
  script: Script = {},
  { stationId, ...given }: Given & Readonly<{ stationId?: string }> = {},
) {
  const bench = benchOver({ ...calm, ...script }, given);
  withoutLayout();
  render(<App bench={bench} />);
  await act(() => bench.workbench.arrive());
  if (stationId !== undefined) await act(() => bench.workbench.openStation(stationId));
  return bench;
}

/** One piece of the page alone, over a bench that a test has made ready. React runs effects twice only where `around` all is StrictMode. */
export async function show(bench: Bench, what: ReactNode, around?: typeof StrictMode): Promise<void> {
  withoutLayout();
  const page = <BenchContext value={bench}>{what}</BenchContext>;
  await act(async () => void render(page, around && { wrapper: around }));
}

/** Presses what is there by now: nothing is waited for. */
export const press = (name: string | RegExp, role: 'button' | 'radio' | 'menuitem' = 'button') =>
  act(async () => void fireEvent.click(screen.getByRole(role, { name })));

/** Fills the field of a label, the `at`-th where several have it, and leaves it. */
export const fill = (label: string | RegExp, value: string, at?: number) =>
  act(async () => {
    const field = at === undefined ? screen.getByLabelText(label) : screen.getAllByLabelText(label)[at];
    if (field === undefined) throw new Error(`no field ${label}`);
    fireEvent.change(field, { target: { value } });
    fireEvent.blur(field);
  });
