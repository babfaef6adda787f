// @vitest-environment jsdom
import { act, fireEvent, screen, waitFor, within } from '@testing-library/react';
import { describe, expect, it } from 'vitest';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { keepTour, recallTour } from '../../../renderer/state/tour-memory.ts';
import type { Script } from '../scripted-client.ts';
import { neverRead, sheetOf, station, sweepFrom, sweepOf } from '../sheet-records.ts';
import { press, showApp } from '../shown-app.tsx';

const row = neverRead(station.id, station.name);

/** A host of one station; what settings, truck and notes are changed to is kept as revisions. */
async function host(start: Readonly<{ listed?: boolean; sweeps?: Parameters<typeof sheetOf>[0] }> = {}) {
  const state = { listed: start.listed ?? true, ...sheetOf(start.sweeps ?? [], { openVisit: null }) };
  let revision = 1;
  const script: Script = {
    'settings.read': () => ({ settings: FIRST_SETTINGS, revision, changedAt: null }),
    'settings.change': (input) => ({ settings: input.settings, revision: ++revision, changedAt: null }),
    'truck.read': () => ({
      truck: null,
      revision,
      changedAt: null,
      kit: [{ kind: 'pad', topMhz: null, valuesDb: [0, 2, 4] }],
    }),
    'truck.change': ({ truck }) => ({ truck, revision: ++revision, changedAt: '2026-11-25T09:00:00.000Z' }),
    'stations.list': () => ({ stations: state.listed ? [row] : [] }),
    'stations.open': () => state.sheet,
    'sweeps.open': sweepFrom(state),
    'demo.load': () => {
      state.listed = true;
      return { stationIds: [station.id] };
    },
    'meters.connect': () => ({
      choice: { kind: 'simulated' },
      identity: { maker: 'Quillmere', model: 'Bench meter', serialNumber: '1', firmware: '1' },
      connectedAt: '2026-11-25T09:00:00.000Z',
    }),
    'search.records': ({ words }) => ({
      visits: words.includes('voss')
        ? [
            {
              visitId: '00000000-0000-4000-8000-000000000001',
              stationId: station.id,
              stationName: station.name,
              operator: 'R. Voss',
              note: 'wet connector',
              startedAt: '2026-11-24T10:00:00.000Z',
              sweep: null,
            },
          ]
        : [],
      sweeps: [],
    }),
  };
  return await showApp(script);
}

const key = (init: KeyboardEventInit, on: Element = document.activeElement ?? document.body) =>
  act(async () => {
    fireEvent.keyDown(on, { bubbles: true, ...init });
    fireEvent.keyUp(on, { bubbles: true, ...init });
  });
const type = (field: HTMLElement, value: string) =>
  act(async () => {
    fireEvent.change(field, { target: { value } });
  });

describe('search', () => {
  it.each([
    ['Ctrl+K', { key: 'k', ctrlKey: true }],
    ['Command+K', { key: 'k', metaKey: true }],
    ['a stroke', { key: '/' }],
  ])('opens by %s, finds a station, and goes there by Enter', async (_, init) => {
    const { store } = await host();
    await key(init);
    const field = await screen.findByRole('searchbox', { name: 'Search everything' });
    await type(field, 'mill');
    expect(await screen.findByRole('menuitem', { name: station.name })).toBeDefined();
    await key({ key: 'ArrowDown' }, field);
    await key({ key: 'Enter' }, field);
    await waitFor(() => expect(store.getState().sheet.at).toBe('open'));
    expect(screen.queryByRole('searchbox', { name: 'Search everything' })).toBeNull();
  });

  it('asks the archive for visits, and groups what it finds', async () => {
    await host();
    await press(/^Search everything/);
    await type(await screen.findByRole('searchbox', { name: 'Search everything' }), 'voss');
    const visits = await screen.findByRole('group', { name: 'Visits' });
    expect(within(visits).getByText('R. Voss: wet connector')).toBeDefined();
  });

  it('says what else could be tried where nothing is found', async () => {
    await host();
    await press(/^Search everything/);
    await type(await screen.findByRole('searchbox', { name: 'Search everything' }), 'zzzz');
    expect(await screen.findByText(/Fewer letters find more/)).toBeDefined();
    await key({ key: 'Escape' }, await screen.findByRole('searchbox', { name: 'Search everything' }));
    await waitFor(() => expect(screen.queryByRole('searchbox', { name: 'Search everything' })).toBeNull());
  });

  it('does not take a stroke that is typed into a field', async () => {
    const { store } = await host();
    const field = document.createElement('input');
    document.body.append(field);
    await key({ key: '/' }, field);
    await key({ key: '?' }, field);
    expect(store.getState().searchIsOpen).toBe(false);
    expect(store.getState().help.at).toBe('closed');
    field.remove();
  });

  it('switches a unit on every screen', async () => {
    const { store } = await host();
    await key({ key: '/' });
    const field = await screen.findByRole('searchbox', { name: 'Search everything' });
    await type(field, 'dbuv');
    await screen.findByRole('menuitem', { name: 'Show levels in dB\u00B5V' });
    await key({ key: 'ArrowDown' }, field);
    await key({ key: 'Enter' }, field);
    await waitFor(() => expect(store.getState().settings.settings.levelUnit).toBe('dBuV'));
  });
});

describe('units', () => {
  it('are one press away in the bar, and a second one changes them', async () => {
    const { store } = await host();
    await press(/^Units: dBmV, \u00B0C, m\./);
    await act(async () => {
      fireEvent.click(await screen.findByRole('radio', { name: '\u00B0F' }));
    });
    await waitFor(() => expect(store.getState().settings.settings.temperatureUnit).toBe('F'));
    expect(screen.getByRole('button', { name: /^Units: dBmV, \u00B0F, m\./, hidden: true })).toBeDefined();
    expect(store.getState().notice).toBeNull();
  });
});

describe('help', () => {
  it('opens by a question mark, finds a word by another name for it, and leads to its neighbours', async () => {
    await host();
    await key({ key: '?' });
    await type(await screen.findByRole('searchbox', { name: 'Find a word' }), 'agc');
    const word = await screen.findByRole('region', { name: 'Gain control' });
    expect(within(word).getByText(/listens to a pilot/)).toBeDefined();
    await act(async () => {
      fireEvent.click(within(word).getByRole('button', { name: 'Pilot' }));
    });
    expect(await screen.findByRole('region', { name: 'Pilot' })).toBeDefined();
  });

  it('shows the keys', async () => {
    const { store } = await host();
    await act(async () => store.getState().helpOpened('keys'));
    expect(await screen.findByText('search everything')).toBeDefined();
  });
});

describe('the first steps', () => {
  it('begin with the demo, say one thing at a time, and are put away for good', async () => {
    const kept = new Map<string, string>();
    const box = {
      getItem: (name: string) => kept.get(name) ?? null,
      setItem: (name: string, value: string) => void kept.set(name, value),
    };
    const { store } = await host({ listed: false });
    recallTour(store, box);
    keepTour(store, box);
    expect(screen.queryByRole('region', { name: 'First steps' })).toBeNull();
    await press('Try it on the invented network');
    const card = await screen.findByRole('region', { name: 'First steps' });
    expect(within(card).getByText(/^Open /)).toBeDefined();
    await act(async () => {
      fireEvent.click(await screen.findByRole('row', { name: /Mill Lane/ }));
    });
    expect(await screen.findByText('Read the cautions and begin the visit.')).toBeDefined();
    // The cautions are there all the same.
    expect(screen.getByText(/60 or 90 V AC/)).toBeDefined();
    await press(/No more of these/);
    expect(screen.queryByRole('region', { name: 'First steps' })).toBeNull();
    const next = createWorkbenchStore();
    recallTour(next, box);
    expect(next.getState().tour).toBe('put-away');
  });

  it('come back from the help', async () => {
    const { store } = await host();
    await act(async () => {
      store.getState().tourBecame('put-away');
      store.getState().helpOpened('begin');
    });
    await press('Walk along with cards');
    expect(await screen.findByRole('region', { name: 'First steps' })).toBeDefined();
  });

  it('walk from reading to fitting, and end once the work is proved', async () => {
    const { store } = await host();
    keepTour(store, { setItem: () => {} });
    await act(async () => store.getState().tourBecame('on'));
    const show = (sweeps: Parameters<typeof sheetOf>[0]) =>
      act(async () => {
        const { sheet } = sheetOf(sweeps);
        store.getState().sheetOpening(station.id);
        store.getState().sheetArrived(sheet);
      });
    await show([]);
    expect(screen.getByText('Read it with the meter.')).toBeDefined();
    const found = sweepOf({ n: 1, offDb: () => -2 });
    await show([found]);
    expect(screen.getByText('Fit what is proposed, and read again.')).toBeDefined();
    await show([found, sweepOf({ n: 2, offDb: () => 0, over: { purpose: 'as-left' } })]);
    expect(store.getState().tour).toBe('put-away');
  });
});

describe('undo', () => {
  it('takes a count of the truck back step by step, by key and by button', async () => {
    const { store } = await host();
    await act(async () => store.getState().dialogOpened({ open: 'truck' }));
    await press('Count the truck');
    const more = await screen.findAllByRole('button', { name: /more|Increase|one more/i });
    const first = more[0];
    if (first === undefined) throw new Error('no button that counts');
    await act(async () => {
      fireEvent.click(first);
    });
    expect(screen.getByRole('button', { name: 'Undo the last change' })).toBeDefined();
    await key({ key: 'z', ctrlKey: true }, document.body);
    expect(screen.getByRole('button', { name: 'Redo' }).hasAttribute('disabled')).toBe(false);
    await key({ key: 'z', ctrlKey: true }, document.body);
    expect(await screen.findByRole('button', { name: 'Count the truck' })).toBeDefined();
  });

  it('keeps the older content once more, as a revision of its own, and that can be taken back too', async () => {
    const { store, workbench, asked } = await host();
    const truck = {
      format: 'tiltwright-truck/1' as const,
      parts: [{ kind: 'pad' as const, valueDb: 2, count: 3 }],
    };
    await act(async () => void (await workbench.changeTruck(truck)));
    expect(await screen.findByText('The count of the truck is kept.')).toBeDefined();
    await press('Undo');
    await waitFor(() => expect(store.getState().truck.truck).toBeNull());
    expect(store.getState().truck.revision).toBe(3);
    expect(asked.filter(({ name }) => name === 'truck.change')).toHaveLength(2);
    await key({ key: 'z', ctrlKey: true }, document.body);
    await waitFor(() => expect(store.getState().truck.truck).toEqual(truck));
  });

  it('refuses where somebody has changed it since', async () => {
    const { store, workbench, asked } = await host();
    const truck = { format: 'tiltwright-truck/1' as const, parts: [] };
    await act(async () => void (await workbench.changeTruck(truck)));
    await act(async () => store.getState().truckArrived({ truck: null, revision: 9, changedAt: null }));
    await press('Undo');
    expect(store.getState().notice).toMatchObject({ tone: 'problem', text: 'That was not taken back.' });
    expect(asked.filter(({ name }) => name === 'truck.change')).toHaveLength(1);
  });
});
