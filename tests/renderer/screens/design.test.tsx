// @vitest-environment jsdom
import { act, fireEvent, screen, within } from '@testing-library/react';
import { expect, it } from 'vitest';
import { ClientFault } from '../../../core/bridge/client-fault.ts';
import type { StationSheet } from '../../../core/bridge/records.ts';
import { Station } from '../../../core/files/station.ts';
import type { StationNotes } from '../../../core/files/station-notes.ts';
import { namesOf, savedFiles } from '../saved-files.ts';
import { neverRead, sheetOf, station, sweepFrom, sweepOf } from '../sheet-records.ts';
import { fill, press, showApp } from '../shown-app.tsx';

const row = ({ station: of, revision }: StationSheet) => neverRead(of.id, of.name, revision);

/** An archive of stations that keeps designs as the real one does: one revision after another, and no id twice as a new one. */
async function host(sheets: readonly StationSheet[]) {
  const kept = new Map(sheets.map((sheet) => [sheet.station.id, sheet]));
  const found = sheetOf([sweepOf({ n: 1, offDb: () => 0 })]);
  const notes: { current: { notes: StationNotes | null; revision: number } } = {
    current: { notes: null, revision: 0 },
  };
  const bench = await showApp({
    'notes.read': ({ stationId }) => ({ stationId, ...notes.current, changedAt: null }),
    'notes.change': ({ stationId, notes: changed }) => {
      notes.current = { notes: changed, revision: notes.current.revision + 1 };
      return { stationId, ...notes.current, changedAt: null };
    },
    'stations.list': () => ({ stations: [...kept.values()].map(row) }),
    'stations.open': ({ stationId }) => {
      const sheet = kept.get(stationId);
      if (sheet === undefined) throw new Error(`no station ${stationId}`);
      return sheet;
    },
    'sweeps.open': sweepFrom(found),
    'stations.export': ({ stationId }) => ({
      fileName: `${stationId}.json`,
      text: JSON.stringify(kept.get(stationId)?.station),
    }),
    'stations.import': ({ text, basedOn }) => {
      const read = Station.parse(JSON.parse(text));
      const before = kept.get(read.id);
      if (basedOn === 0 && before !== undefined)
        throw new ClientFault('refused', `id "${read.id}"`, `${before.station.name} has it already`);
      if (before !== undefined && JSON.stringify(Station.parse(before.station)) === JSON.stringify(read))
        return { stationId: read.id, revision: before.revision };
      const revision = (before?.revision ?? 0) + 1;
      const pluggedIn = Object.fromEntries(read.positions.map((one) => [one.name, one.installed]));
      kept.set(read.id, { ...(before ?? sheetOf([]).sheet), station: read, revision, pluggedIn });
      return { stationId: read.id, revision };
    },
  });
  return { ...bench, kept, notes };
}

const fields = async (said: readonly (readonly [string, string, number?])[]) => {
  for (const [label, value, at] of said) await fill(label, value, at);
};
const lacks = () => document.querySelector('.design__lacks')?.textContent;

it('takes a station from an empty desk into the archive, and opens it', async () => {
  const { kept, store } = await host([]);
  await press('New station');
  expect(lacks()).toBe('14 still to sayName of the station');
  await fields([
    ['Name of the station', '09 Tar Steps'],
    ['Test point loss', '20'],
    ['Low end', '54'],
    ['level there', '36', 0],
    ['High end', '870'],
    ['level there', '46', 1],
    ['A channel within ±', '1'],
    ['Flatness up to', '2.5'],
  ]);
  expect(
    screen.getByRole('img', { name: /^The design: 36\.0 at 54 MHz to 46\.0 dBmV at 870 MHz/ }),
  ).toBeTruthy();
  await press(/^input pad/);
  await fields([
    ['In it now', '6'],
    ['From', '0'],
    ['to', '20'],
    ['every', '1'],
  ]);
  await press(/^input equalizer/);
  await fields([
    ['In it now', '8'],
    ['From', '0'],
    ['to', '12'],
    ['every', '2'],
    ['And also', '15 18'],
    ['Insertion loss', '1'],
  ]);
  // What is missing is one press away, and its field waits for the figure.
  expect(lacks()).toBe('1 still to sayForward input: the loss of its test point');
  await press('Keep this station');
  expect(kept.size).toBe(0);
  expect(document.activeElement).toBe(screen.getByLabelText('Test point loss'));
  await fill('Test point loss', '20');
  expect(lacks()).toBe('Nothing is missing.');
  await press('Keep this station');
  expect(kept.get('09-tar-steps')?.station).toEqual({
    ...station,
    id: '09-tar-steps',
    name: '09 Tar Steps',
    positions: [
      { ...station.positions[0], values: Array.from({ length: 21 }, (_, i) => i) },
      { ...station.positions[1], values: [0, 2, 4, 6, 8, 10, 12, 15, 18] },
    ],
  });
  expect(store.getState().sheet).toMatchObject({ at: 'open', portName: 'forward output' });
  expect(store.getState().designAt.at).toBe('closed');
});

it('does not take a name that is another station for a new one', async () => {
  const { kept, store, workbench } = await host([sheetOf([]).sheet]);
  await act(() => workbench.openStation(station.id));
  await press('Design');
  await press('A new one like it');
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('A new station');
  await fields([['Name of the station', 'Test 07']]);
  for (const [name, value] of [
    ['input pad', '3'],
    ['input equalizer', '4'],
  ] as const) {
    await press(new RegExp(`^${name}`));
    await fill('In it now', value);
  }
  await press('Keep this station');
  expect(kept.size).toBe(1);
  expect(store.getState().notice).toMatchObject({
    text: 'Test 07 was not kept.',
    help: 'id "test-07": 07 Mill Lane has it already',
  });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe('A new station');
  await fields([['Name of the station', '08 Mill Lane']]);
  await press('Keep this station');
  expect([...kept.keys()]).toEqual(['test-07', '08-mill-lane']);
  expect(kept.get('08-mill-lane')?.station.ports).toEqual(station.ports);
});

it('changes a design with what is plugged in now, and takes it back with what was plugged in since', async () => {
  const found = sheetOf([sweepOf({ n: 1, offDb: () => 0 })]).sheet;
  const { kept, store, workbench } = await host([
    { ...found, pluggedIn: { 'input pad': 3, 'input equalizer': 10 } },
  ]);
  await act(() => workbench.openStation(station.id));
  await press('Design');
  // Sweeps are kept under the port's name.
  expect(screen.getByLabelText('Called')).toHaveProperty('disabled', true);
  expect(screen.queryByRole('button', { name: 'Take this port out' })).toBeNull();
  await fill('level there', '48', 1);
  await press('Keep this design');
  const now = () => kept.get(station.id);
  expect(now()?.station.ports[0]?.design?.highDbmv).toBe(48);
  expect(now()?.station.positions.map(({ installed }) => installed)).toEqual([3, 10]);
  const { notice } = store.getState();
  expect(notice?.text).toBe('The design of 07 Mill Lane is kept.');
  const sheet = now();
  if (sheet === undefined) throw new Error('the station is there');
  kept.set(station.id, { ...sheet, pluggedIn: { 'input pad': 2, 'input equalizer': 10 } });
  await act(() => workbench.openStation(station.id));
  await act(async () => notice?.undo?.go());
  expect(now()?.station.ports[0]?.design?.highDbmv).toBe(46);
  expect(now()?.station.positions.map(({ installed }) => installed)).toEqual([2, 10]);
});

it('asks before a half described station is left, and takes changes back one by one', async () => {
  const { store } = await host([]);
  await press('New station');
  await fill('Name of the station', '09 Tar Steps');
  await press('Put a plug-in in');
  await act(async () => {
    fireEvent.click(screen.getByRole('menuitem', { name: 'A pad' }));
  });
  expect(within(screen.getByRole('list', { name: 'Signal path' })).getByText('interstage pad')).toBeTruthy();
  await press('Undo the last change');
  expect(screen.queryByText('interstage pad')).toBeNull();
  await press('Back to the stations');
  const question = screen.getByRole('dialog');
  expect(question.textContent).toMatch(/Still to say: Forward output: the loss of its test point/);
  await act(async () => {
    fireEvent.click(within(question).getByRole('button', { name: /^Go on/ }));
  });
  expect(store.getState().designAt.at).toBe('new');
  expect(screen.getByLabelText('Name of the station')).toHaveProperty('value', '09 Tar Steps');
});

it('gives a station as a file, and says of a file that is opened whether it brings anything', async () => {
  const { store, workbench } = await host([sheetOf([]).sheet]);
  await act(() => workbench.openStation(station.id));
  await press('Design');
  const files = savedFiles();
  await press('Save its file');
  expect(namesOf(files)).toEqual(['test-07.json']);
  await fill('level there', '47', 1);
  expect(screen.getByRole('button', { name: 'Save its file' })).toHaveProperty('disabled', true);
  const notice = () => store.getState().notice;
  await act(() => workbench.importStation('same.json', JSON.stringify(station)));
  expect(notice()).toMatchObject({ text: 'same.json says nothing new.' });
  const renamed = { ...station, name: '07 Mill Lane, east side' };
  await act(() => workbench.importStation('east.json', JSON.stringify(renamed)));
  expect(notice()).toMatchObject({ text: 'east.json is the new design of 07 Mill Lane.' });
  await act(() => workbench.importStation('new.json', JSON.stringify({ ...station, id: 'qm-9' })));
  expect(notice()).toMatchObject({ text: 'new.json is in the archive.' });
});

it('takes a station out of service with a reason, and brings it back', async () => {
  const { notes, store, workbench } = await host([sheetOf([]).sheet]);
  await act(() => workbench.openStation(station.id));
  await press('Design');
  await press('In service?');
  const take = () => screen.getByRole('button', { name: 'Take it out of service' });
  expect(take()).toHaveProperty('disabled', true);
  await fill('Why', 'taken down in March');
  await press('Take it out of service');
  expect(notes.current.notes?.outOfService).toEqual({ reason: 'taken down in March' });
  expect(screen.queryByRole('dialog')).toBeNull();
  await press('Back to 07 Mill Lane');
  expect(screen.getByText('out of service')).toBeTruthy();
  await act(async () => store.getState().notice?.undo?.go());
  expect(notes.current.notes?.outOfService).toBeUndefined();
  expect(screen.queryByText('out of service')).toBeNull();
});
