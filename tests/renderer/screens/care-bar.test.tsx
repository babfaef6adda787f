// @vitest-environment jsdom
import { act, cleanup, render } from '@testing-library/react';
import { afterEach, expect, it, vi } from 'vitest';
import type { Care, HeldSweep } from '../../../core/bridge/care-calls.ts';
import { ClientFault } from '../../../core/bridge/client-fault.ts';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import { writeSweepCsv } from '../../../core/files/write-csv.ts';
import { CutShort } from '../../../renderer/screens/CutShort.tsx';
import { NoticeBar } from '../../../renderer/screens/NoticeBar.tsx';
import { BenchContext } from '../../../renderer/state/use-workbench.ts';
import { benchOver } from '../bench-over.ts';
import { plain } from '../plain.ts';
import { namesOf, savedFiles } from '../saved-files.ts';
import type { Script } from '../scripted-client.ts';
import { press, show } from '../shown-app.tsx';

afterEach(() => {
  cleanup();
  vi.unstubAllGlobals();
});

const well: Care = {
  ...{ held: [], ballast: 'there', ballastBytes: 20_000_000, freeBytes: 1e9, neededBytes: 220_000_000 },
  folderWarning: null,
};
const one: HeldSweep = {
  ...{ sweepId: '00000000-0000-4000-8000-000000000007', stationId: 'slipway', stationName: 'Slipway 2' },
  ...{ portName: 'forward output', onDisk: 94, inMemory: 42, why: 'the disk takes no more' },
};
const ownCsv = writeSweepCsv(
  [
    { frequencyMhz: 54, levelDbmv: 36.1 },
    { frequencyMhz: 870, levelDbmv: -3.2 },
  ],
  ['Slipway 2'],
);

async function shown(care: Care, script: Script = {}) {
  const bench = benchOver({ 'stations.list': () => ({ stations: [] }), ...script });
  bench.store.getState().careBecame(care);
  await show(bench, <NoticeBar />);
  return bench;
}
const words = () => plain(document.body.textContent);

it('says nothing while all is well', async () => {
  await shown(well);
  expect(words()).toBe('');
});

it.each([
  [[one], '42 readings of Slipway 2, forward output, are not on the disk: it takes no more.'],
  [[{ ...one, inMemory: 1 }], '1 reading of Slipway 2, forward output, is not on the disk'],
  [[{ ...one, inMemory: 0 }], 'The end of Slipway 2, forward output, is not on the disk'],
  [[one, { ...one, inMemory: 3 }], '45 readings of 2 sweeps are not on the disk'],
] as const)('says what is in memory only, and never that it is kept: %#', async (held, said) => {
  await shown({ ...well, held: [...held] });
  expect(words()).toContain(said);
  expect(words()).toContain('Nothing is lost while the program runs.');
  expect(words()).not.toMatch(/\bkept\b/);
});

it('tries again: says why not while the disk is full, and goes when the disk took it', async () => {
  let isFull = true;
  const { names } = await shown(
    { ...well, held: [one] },
    {
      'care.keep': () => {
        if (isFull)
          throw new ClientFault('refused', '/data', 'the disk takes no more; free some space', 'full');
        return well;
      },
    },
  );
  await press('Try again');
  expect(words()).toContain('42 readings of Slipway 2');
  expect(words()).toContain('/data: the disk takes no more; free some space');
  // In the same bar: a second one would take a row of the screen more.
  expect(document.querySelectorAll('.notice')).toHaveLength(1);
  isFull = false;
  await press('Try again');
  expect(words()).toBe('');
  expect(names()).toContain('stations.list');
});

it('goes by itself when the host says that the disk took it', async () => {
  const { emit } = await shown({ ...well, held: [one] });
  await act(async () => emit('care.changed', well));
  expect(words()).toBe('');
});

it('saves to the place that the person names, as a file that can be taken in again', async () => {
  const written: string[] = [];
  const named: string[] = [];
  vi.stubGlobal('showSaveFilePicker', async ({ suggestedName }: { suggestedName: string }) => {
    named.push(suggestedName);
    return {
      createWritable: async () => ({
        write: async (text: string) => void written.push(text),
        close: async () => {},
      }),
    };
  });
  await shown(
    { ...well, held: [one] },
    { 'sweeps.export': () => ({ fileName: 'slipway.csv', text: ownCsv }) },
  );
  await press('Save to another drive');
  expect(named).toEqual(['slipway.exchange.csv']);
  const read = readSweepCsv(written[0] ?? '', 'a.csv');
  expect(read.ok && read.value.rows.map(({ levelDbmv }) => levelDbmv)).toEqual([36.1, -3.2]);
  expect(words()).toContain('Saved as slipway.exchange.csv.');
  expect(words()).toContain('It stays in memory too, until the disk takes it.');
  expect(words()).toContain('42 readings of Slipway 2');
});

it('says nothing of a file when the person named no place; takes the usual way where no place can be asked for', async () => {
  const ask = vi.fn(async () => {
    await new Promise((resolve) => setTimeout(resolve, 200));
    throw new DOMException('no place', 'AbortError');
  });
  vi.stubGlobal('showSaveFilePicker', ask);
  const handed = savedFiles();
  await shown(
    { ...well, held: [one] },
    { 'sweeps.export': () => ({ fileName: 'slipway.csv', text: ownCsv }) },
  );
  await press('Save to another drive');
  await act(() => new Promise((resolve) => setTimeout(resolve, 300)));
  expect(handed).toEqual([]);
  expect(words()).not.toContain('Saved as');
  // No dialog can be shown, or the page may not ask for one.
  for (const name of ['AbortError', 'SecurityError']) {
    ask.mockImplementation(async () => {
      throw new DOMException('nobody was asked', name);
    });
    await press('Save to another drive');
  }
  expect(namesOf(handed)).toEqual(['slipway.exchange.csv', 'slipway.exchange.csv']);
  expect(words()).toContain('Saved as slipway.exchange.csv.');
});

it('says that the room kept for a full disk was given up, and may be put away', async () => {
  await shown({ ...well, ballast: 'given-up' });
  expect(words()).toContain('The disk is full. 20 MB kept for this were given up');
  expect(words()).toContain('Make 220 MB free before the next sweep.');
  await press('Put this message away');
  expect(words()).toBe('');
});

it('tells a sweep that was cut short by what is on the disk and what is not', async () => {
  const bench = benchOver({});
  const facts = {
    readingCount: 94,
    plannedCount: 136,
    reason: 'the disk takes no more',
    frequenciesMhz: [54],
  };
  const cut = (inMemory: number) => (
    <BenchContext value={bench}>
      <CutShort {...facts} inMemory={inMemory} portName="forward output" purpose="as-found" />
    </BenchContext>
  );
  const { rerender } = render(cut(10));
  expect(words()).toContain('Cut short after 104 of 136');
  expect(words()).toContain('94 readings are kept, 10 are only in memory, marked partial.');
  rerender(cut(0));
  expect(words()).toContain('94 readings are kept, marked partial.');
});
