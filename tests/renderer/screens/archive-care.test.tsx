// @vitest-environment jsdom
import { act, cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, expect, it } from 'vitest';
import { ArchiveCare } from '../../../renderer/screens/ArchiveCare.tsx';
import type { BackupList, Checked } from '../../../renderer/state/backup-commands.ts';
import { createLiveFeed } from '../../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import { BenchContext } from '../../../renderer/state/use-workbench.ts';
import { createWorkbench } from '../../../renderer/state/workbench.ts';
import { scriptedClient } from '../scripted-client.ts';

afterEach(cleanup);

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

async function shown(made: Line, checked: Checked = whole) {
  const backups: Line[] = [];
  const asked: (string | null)[] = [];
  const { client } = scriptedClient({
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
  });
  const store = createWorkbenchStore();
  const feed = createLiveFeed(() => {});
  const workbench = createWorkbench(client, store, feed);
  render(
    <BenchContext value={{ store, workbench, feed, now: () => '2026-03-02T10:00:00.000Z' }}>
      <ArchiveCare />
    </BenchContext>,
  );
  await act(async () => {});
  return { asked };
}
const status = () => (screen.getByRole('status').textContent ?? '').replaceAll('\u00A0', ' ');
const words = () => (document.body.textContent ?? '').replaceAll('\u00A0', ' ');
const press = (name: string) => act(async () => void fireEvent.click(screen.getByRole('button', { name })));

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
