import { expect, it } from 'vitest';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import { wireToInstrument } from '../../../electron/backend/meters/simulated/link.ts';
import { sweepsFromBytes } from '../../../electron/backend/services/sweeps-from-bytes.ts';
import { archive as archiveVerb } from '../../../electron/cli/verbs/archive.ts';
import { lookInto, openTestArchive, stationFile, testParts } from '../../support/archive.ts';
import { runInside } from '../../support/command-line.ts';
import { soon } from '../../support/soon.ts';

const signal = new AbortController().signal;

/** An archive with two sweeps of one plan, a decibel apart, whose bytes were kept, and a third one from a file. */
async function twoSweeps() {
  const parts = testParts();
  let sweeps = 0;
  const instrument = new LineInstrument({ source: (mhz) => mhz / 100 + sweeps });
  const shop = createMeterShop({
    now: parts.clock.now,
    find: async () => ({ ports: [], problem: null }),
    openSerial: async (path, { lines }) =>
      createLineLink(path, lines, wireToInstrument(instrument, { messageMs: 0, readingMs: 0 })),
  });
  const { handlers, close } = createHandlers({ ...parts, shop, host: 'memory', version: '0' });
  await handlers['stations.import']({ fileName: 's.json', text: stationFile() }, signal);
  const { visitId } = await handlers['visits.begin'](
    { stationId: 'slipway', operator: '', ambientC: null, cautionsRead: true },
    signal,
  );
  await handlers['meters.connect']({ kind: 'serial', path: 'COM3', profile: 'replay' }, signal);
  const about = { visitId, portName: 'forward output', purpose: 'check' } as const;
  const ids: string[] = [];
  for (; sweeps < 2; sweeps += 1) {
    const { sweepId } = await handlers['sweeps.start']({ ...about, frequenciesMhz: [57, 303, 711] }, signal);
    ids.push(sweepId);
    await soon(() => parts.sent.filter(({ name }) => name === 'sweep.ended').length === ids.length);
  }
  const text = 'frequency_mhz,level_dbmv\n54,36\n';
  await handlers['sweeps.import']({ ...about, fileName: 'a.csv', text, testPointLossDb: 0 }, signal);
  await close();
  parts.archive.close();
  return { folder: parts.folder, ids };
}
const reread = async (folder: string) => {
  const archive = openTestArchive(folder);
  try {
    return await sweepsFromBytes(archive, signal);
  } finally {
    archive.close();
  }
};
const verified = (folder: string, ...more: string[]) =>
  runInside([archiveVerb], ['archive', 'verify', '--data', folder, ...more]);

it('reads every sweep of a meter again, and none of a file', async () => {
  const { folder } = await twoSweeps();
  expect(await reread(folder)).toEqual({ same: 2, without: 0, different: [] });
  const plain = await verified(folder, '--bytes');
  expect(plain.exitCode).toBe(0);
  expect(plain.stdout).toContain(
    '2 sweeps read again from the bytes of the wire: each says the same levels.',
  );
  expect(JSON.parse((await verified(folder, '--bytes', '--json')).stdout).bytes).toMatchObject({ same: 2 });
  expect(JSON.parse((await verified(folder, '--json')).stdout)).not.toHaveProperty('bytes');
});

it('names the sweeps whose bytes say other levels', async () => {
  const { folder, ids } = await twoSweeps();
  lookInto(folder, (db) => {
    db.exec('DROP TRIGGER sweep_portion_is_never_changed');
    const [first, second] = db.prepare<[], number>('SELECT DISTINCT sweep FROM sweep_portion').pluck().all();
    const move = db.prepare('UPDATE sweep_portion SET sweep = ? WHERE sweep = ?');
    db.pragma('foreign_keys = OFF');
    move.run(9999, first);
    move.run(first, second);
    move.run(second, 9999);
  });
  const { same, different } = await reread(folder);
  expect([same, different.map(({ sweepId }) => sweepId)]).toEqual([0, ids]);
  const plain = await verified(folder, '--bytes');
  expect(plain.exitCode).toBe(1);
  for (const id of ids) expect(plain.stdout).toContain(`${id}: its bytes say other levels`);
});

it('names damaged bytes, and counts a sweep that has none', async () => {
  const { folder, ids } = await twoSweeps();
  lookInto(folder, (db) => {
    db.exec('DROP TRIGGER sweep_portion_is_never_changed; DROP TRIGGER sweep_portion_is_never_deleted');
    const [first, second] = db.prepare<[], number>('SELECT DISTINCT sweep FROM sweep_portion').pluck().all();
    db.prepare("UPDATE sweep_portion SET body = x'00ff' WHERE sweep = ?").run(first);
    db.prepare('DELETE FROM sweep_portion WHERE sweep = ?').run(second);
  });
  expect(await reread(folder)).toMatchObject({
    same: 0,
    without: 1,
    different: [{ sweepId: ids[0], words: expect.stringContaining('damaged') }],
  });
});

it('can be stopped', async () => {
  const { folder } = await twoSweeps();
  const archive = openTestArchive(folder);
  await expect(sweepsFromBytes(archive, AbortSignal.abort('enough'))).rejects.toBe('enough');
  archive.close();
});
