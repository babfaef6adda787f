// @vitest-environment jsdom
import { act, fireEvent, screen } from '@testing-library/react';
import { expect, it } from 'vitest';
import { ClientFault } from '../../../core/bridge/client-fault.ts';
import { ArchiveCare } from '../../../renderer/screens/ArchiveCare.tsx';
import type { BackupList, Checked } from '../../../renderer/state/backup-commands.ts';
import { benchOver } from '../bench-over.ts';
import { plain } from '../plain.ts';
import { press, show } from '../shown-app.tsx';

type Line = BackupList['backups'][number];
const line = (broken = 0): Line => ({
  path: '/stick/tiltwright-20260302T080000Z.sqlite',
  madeAt: '2026-03-02T08:00:00.000Z',
  records: 40,
  sweeps: 3,
  broken,
  bytes: 1_200_000,
});
const head = { device: '00000000-0000-4000-8000-000000000001', seq: 40, hash: 'a'.repeat(64) };
const whole: Checked = { records: 40, sweeps: 3, broken: [], head };

async function shown(
  made: Line,
  checked: Checked | Promise<Checked> = whole,
  folderWarning: string | null = null,
) {
  const backups: Line[] = [];
  const asked: (string | null)[] = [];
  const bench = benchOver(
    {
      'backups.list': () => ({
        folder: '/data/backups',
        archivePath: '/data/tiltwright.sqlite',
        archiveBytes: 2_500_000,
        backups,
      }),
      'backups.make': ({ folder }) => {
        asked.push(folder);
        backups.push(made);
        return made;
      },
      'archive.verify': () => checked,
    },
    { now: '2026-03-02T10:00:00.000Z' },
  );
  bench.store.getState().careBecame({
    ...{ held: [], ballast: 'there', ballastBytes: 20_000_000, freeBytes: 1e9, neededBytes: 220_000_000 },
    folderWarning,
  });
  await show(bench, <ArchiveCare />);
  return { ...bench, asked };
}
const status = () => plain(screen.getByRole('status').textContent);
const words = () => plain(document.body.textContent);

it('says that there is none, makes one where it is told, and says when the last good one was made', async () => {
  const { asked } = await shown(line());
  expect(words()).toContain('No backup was made yet. One is made each day');
  expect(words()).toContain('/data/tiltwright.sqlite, 2.5 MB');
  fireEvent.change(screen.getByRole('textbox'), { target: { value: ' /stick ' } });
  await press('Back up now');
  expect(asked).toEqual(['/stick']);
  expect(status()).toBe('Made and looked through: /stick/tiltwright-20260302T080000Z.sqlite');
  expect(words()).toMatch(/The last good backup was made .*, with 3 sweeps; 1 backup is kept/);
});

it('counts no backup as good that holds a record which is not as recorded', async () => {
  const { asked } = await shown(line(2));
  await press('Back up now');
  expect(asked).toEqual([null]);
  expect(status()).toContain('2 records in it are not as recorded');
  expect(words()).toContain('No backup was made yet');
});

it('checks every record, and names the first that is not as it was', async () => {
  const broken: Checked['broken'] = [
    { device: head.device, seq: 7, kind: 'sweep', id: null, what: 'changed', words: 'record 7 was changed' },
  ];
  await shown(line(), { ...whole, broken });
  await press('Check every record');
  expect(status()).toBe('1 record is not as recorded. The first: record 7 was changed');
});

it('says how far the check is, and after it the head of the chain', async () => {
  const { promise, resolve } = Promise.withResolvers<Checked>();
  const { emit } = await shown(line(), promise);
  await press('Check every record');
  expect(screen.queryByRole('button', { name: 'Check every record' })).toBeNull();
  await act(async () => emit('verify.progress', { done: 12_345, total: 50_000 }));
  expect(status()).toMatch(/^Looked at 12.?345 of 50.?000 records: 24 %$/);
  expect(screen.getByRole('progressbar')).toHaveProperty('value', 12_345);
  await act(async () => resolve(whole));
  expect(status()).toMatch(/^40 records with 3 sweeps: each is as it was recorded\./);
  expect(words()).toContain(`Head of this laptop’s chain: ${head.device}, record 40, ${head.hash}`);
  expect(screen.queryByRole('progressbar')).toBeNull();
});

it('stops a check, says that it was not whole, and leaves no notice of a fault', async () => {
  const { promise, reject } = Promise.withResolvers<Checked>();
  const { store } = await shown(line(), promise);
  await press('Check every record');
  await press('Stop the check');
  await act(async () =>
    reject(new ClientFault('cancelled', 'archive.verify', 'cancelled before it was done')),
  );
  expect(status()).toBe('Stopped; not every record was looked at.');
  expect(store.getState().notice).toBeNull();
  expect(screen.getByRole('button', { name: 'Check every record' })).toBeDefined();
});

it('says where the folder of the archive is no good place for it', async () => {
  await shown(line(), whole, 'this folder is on the network; start with --data and another');
  expect(words()).toContain('This folder is on the network; start with --data and another.');
});
