// @vitest-environment jsdom
import { act, fireEvent, screen, waitFor } from '@testing-library/react';
import { beforeEach, expect, it } from 'vitest';
import { TransferScreen } from '../../../renderer/screens/transfer/TransferScreen.tsx';
import { benchOver } from '../bench-over.ts';
import { namesOf, savedFiles } from '../saved-files.ts';
import type { Script } from '../scripted-client.ts';
import { press, show } from '../shown-app.tsx';

const device = '6d1c1f2e-5d0e-4c7b-9a53-0f6f3f0d2b11';
const head = { device, seq: 12, hash: '0'.repeat(64) };
const nothing = { head, files: [], conflicts: [] };
const pair = {
  ...{ kind: 'sweep', id: device, stationName: '07 Mill Lane', takenAt: '2026-03-08T12:00:00.000Z' },
  here: { device, seq: 3 },
  other: { device: `7${device.slice(1)}`, seq: 3 },
  differences: [{ key: 'testPointLossMdb', here: '20000', other: '16000' }],
};
beforeEach(() => localStorage.clear());

async function shown(script: Script) {
  const bench = benchOver({ 'transfer.look': () => nothing, ...script }, { now: '2026-03-08T12:00:00.000Z' });
  const standing = null;
  bench.store.getState().stationsListed([
    {
      stationId: 'mill',
      name: '07 Mill Lane',
      revision: 1,
      sweepCount: 1,
      openVisit: false,
      standing,
    } as never,
  ]);
  await show(bench, <TransferScreen />);
  return bench;
}
const button = (name: string) => screen.getByRole('button', { name });
const typeFolder = async (path: string) => {
  await act(async () => fireEvent.change(screen.getByRole('textbox'), { target: { value: path } }));
};

it('says what to do while nothing came yet, and asks for a folder first', async () => {
  await shown({});
  expect(screen.getByRole('heading', { level: 1 }).textContent).toBe(
    'Nothing has come from another laptop yet.',
  );
  expect(button('Take in the folder')).toHaveProperty('disabled', true);
  expect(button('Save as a file')).toHaveProperty('disabled', false);
});

it('takes in the folder and says what became of each file', async () => {
  const none = { added: 0, sweeps: 0, conflicts: 0 };
  const files = [
    { fileName: 'a.records.gz', became: 'taken-in' as const, why: null, added: 12, sweeps: 4, conflicts: 0 },
    { fileName: 'b.records.gz', became: 'incomplete' as const, why: 'wait until it is copied', ...none },
  ];
  const { asked, inputOf } = await shown({ 'transfer.take': () => ({ files }) });
  await typeFolder('/media/stick');
  await press('Take in the folder');
  const rows = screen.getAllByRole('listitem').map(({ textContent }) => textContent?.replace(/\s/g, ' '));
  expect(rows[0]).toContain('Taken in: 12 records, 4 sweeps among them');
  expect(rows[1]).toContain('Not whole yet: wait until it is copied');
  expect(inputOf('transfer.take')).toEqual({
    from: { kind: 'folder', folder: '/media/stick' },
    operator: '',
  });
  expect(asked.filter(({ name }) => name === 'transfer.look')).toHaveLength(2);
});

it('fetches a file in parts and hands it to the person', async () => {
  const saved = savedFiles();
  const parts = [btoa('abc'), btoa('de'), ''];
  const { asked } = await shown({
    'transfer.give': () => ({ fileName: 'mine.records.gz', file: device, records: 5, sweeps: 1, bytes: 5 }),
    'transfer.part': () => ({ base64: parts.shift() ?? '' }),
  });
  await press('Save as a file');
  await waitFor(() => expect(namesOf(saved)).toEqual(['mine.records.gz']));
  expect(asked.filter(({ name }) => name === 'transfer.part').map(({ input }) => input)).toEqual([
    { file: device, from: 0 },
    { file: device, from: 3 },
    { file: device, from: 5 },
  ]);
  expect(screen.getByText(/5 records with 1 sweep are in one file/)).toBeDefined();
});

it('shows two records of one name side by side, with both laptops', async () => {
  await shown({ 'transfer.look': () => ({ ...nothing, conflicts: [pair] }) });
  expect(screen.getByRole('heading', { level: 1 }).textContent).toMatch(/^1\srecord says otherwise/);
  const table = screen.getByRole('table', { name: /^Sweep at 07 Mill Lane/ });
  expect(table.textContent).toContain('laptop 6d1c1f2e');
  expect(table.textContent).toContain('laptop 7d1c1f2e');
  expect(table.textContent).toMatch(/Test point loss20\.0\sdB16\.0\sdB/);
});
