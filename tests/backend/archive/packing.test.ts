import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { expect, it, vi } from 'vitest';
import { ENDED_BY_RECOVERY } from '../../../electron/backend/archive/open.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, stationFile, throwAwayFolder } from '../../support/archive.ts';

vi.setConfig({ testTimeout: 60_000 });

function withStation(): string {
  const folder = throwAwayFolder();
  const archive = openTestArchive(folder);
  archive.write(() => {
    archive.stations.add('slipway', 0);
    archive.stations.addRevision({
      stationId: 'slipway',
      revision: 1,
      name: 'Slipway 2',
      design: stationFile(),
      fileName: 's.json',
      addedAtMs: 0,
    });
  });
  archive.close();
  return folder;
}

it('loses nothing when the program is killed between packing a sweep and letting its journal go', async () => {
  const folder = withStation();
  const sweepId = crypto.randomUUID();
  const program = fileURLToPath(new URL('packing-child.ts', import.meta.url));
  const child = spawn(process.execPath, [program, folder, sweepId], { stdio: ['ignore', 'ignore', 'pipe'] });
  let complaint = '';
  child.stderr.setEncoding('utf8').on('data', (more: string) => {
    complaint += more;
  });
  await once(child, 'close');
  expect(complaint).toBe('');
  expect(child.signalCode).toBe('SIGKILL');
  lookInto(folder, (db) => {
    expect(db.prepare('SELECT count(*) FROM reading').pluck().get()).toBe(158);
    expect(db.prepare('SELECT count(*) FROM sweep_levels').pluck().get()).toBe(0);
  });
  const archive = openTestArchive(folder);
  const row = archive.sweeps.byId(sweepId);
  expect(row).toMatchObject({ state: 'partial', reason: ENDED_BY_RECOVERY, readingCount: 158 });
  const levels = archive.sweeps.readings(row?.seq ?? 0).map(({ meterMdbmv }) => meterMdbmv);
  expect(levels).toEqual(Array.from({ length: 158 }, (_, place) => place * 100));
  expect((await verify(archive, new AbortController().signal)).broken).toEqual([]);
});

it('orders records by one clock that never goes back, whatever the computer’s does', () => {
  const folder = throwAwayFolder();
  const add = (archive: ReturnType<typeof openTestArchive>, id: string, addedAtMs: number) =>
    archive.write(() => {
      archive.stations.add(id, addedAtMs);
      const row = { stationId: id, revision: 1, name: id, design: '{}', fileName: 'f', addedAtMs };
      archive.stations.addRevision(row);
    });
  const first = openTestArchive(folder);
  add(first, 'a', 5000);
  add(first, 'b', 5000);
  first.close();
  const second = openTestArchive(folder);
  add(second, 'c', 1000);
  add(second, 'd', 9000);
  second.close();
  const orders = lookInto(folder, (db) =>
    db.prepare('SELECT order_ms FROM design_revision ORDER BY seq').pluck().all(),
  );
  expect(orders).toEqual([5000, 5001, 5002, 9000]);
});
