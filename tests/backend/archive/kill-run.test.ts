import { existsSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { beforeEach, describe, expect, it } from 'vitest';
import { checkArchive, type Found } from '../../../bench/kill/check-archive.ts';
import { createBackupWatch } from '../../../bench/kill/check-backups.ts';
import { lonelyFacts, strayFiles } from '../../../bench/kill/check-leftovers.ts';
import { createLedger, type Ledger, type OtherFile } from '../../../bench/kill/ledger.ts';
import { filesOfAnother } from '../../../bench/kill/other-laptop.ts';
import { killRun } from '../../../bench/kill/run.ts';
import { factsPath } from '../../../electron/backend/archive/backup-list.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { takeIn } from '../../../electron/backend/services/take-in.ts';
import { throwAwayFolder } from '../../support/archive.ts';
import { createChance } from '../../support/chance.ts';
import { joined } from '../services/joined.ts';

it('a busy program, killed again and again, loses nothing that it acknowledged', async () => {
  const report = await killRun({
    ...{ kills: 18, seed: 20_261_125, folder: throwAwayFolder(), killsALife: 18 },
    ...{ fileCount: 4, oldSweeps: 60 },
  });
  expect(report.losses).toEqual([]);
  // It was at work: what was checked is not an empty archive, and kills fell into more than one kind of work.
  expect(report.acknowledged.get('reading') ?? 0).toBeGreaterThan(100);
  expect(report.acknowledged.get('imported') ?? 0).toBeGreaterThan(3);
  expect(report.extent.sweeps).toBeGreaterThan(60);
  expect(report.fell.size).toBeGreaterThan(4);
});

describe('the check finds', () => {
  let folder = '';
  let ledger: Ledger;
  let files: readonly OtherFile[] = [];
  const head = { device: '', seq: 0, hash: '' };

  /** An archive with one of each, all of it acknowledged, and closed. */
  beforeEach(async () => {
    folder = throwAwayFolder();
    ledger = createLedger();
    files = await filesOfAnother(join(throwAwayFolder(), 'others'), {
      ...{ fileCount: 1, sweepCount: 3, chance: createChance(1) },
    });
    const bench = await joined({ folder, newId: () => crypto.randomUUID() });
    const { handlers: call, signal } = bench;
    const levels = [10_000, 11_500, 12_000];
    ledger.hear({ say: 'importing', fileName: 'a.csv', levels });
    const text = `frequency_mhz,level_dbmv\n${levels.map((level, i) => `${54 + i},${level / 1000}`).join('\n')}\n`;
    const asked = { portName: 'forward output', purpose: 'check', testPointLossDb: 0 } as const;
    const { visitId } = bench.visit;
    const { sweepId } = await call['sweeps.import']({ ...asked, visitId, fileName: 'a.csv', text }, signal);
    ledger.hear({ say: 'imported', sweepId, fileName: 'a.csv' });
    const notes = { format: 'tiltwright-station-notes/1' as const };
    const kept = await call['notes.change']({ stationId: 'slipway', basedOn: 0, notes }, signal);
    const { revision } = kept;
    ledger.hear({ say: 'notes', stationId: 'slipway', revision, json: JSON.stringify(kept.notes) });
    for (const { path, fileName } of files) {
      await takeIn(bench.archive, { path, operator: 'R. Voss', now: () => new Date() }, signal);
      ledger.hear({ say: 'taken', fileName });
    }
    const { path } = await call['backups.make']({ folder: null }, signal);
    ledger.hear({ say: 'backup', path });
    Object.assign(head, bench.archive.head());
    ledger.hear({ say: 'head', ...head });
    bench.archive.close();
  });

  const check = (): Promise<Found> => checkArchive(folder, ledger, files);
  /** By a hand with SQLite, which drops the guards first. */
  const changeBy = (sql: string) => {
    const db = new Database(join(folder, ARCHIVE_FILE));
    const guards = db
      .prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'")
      .pluck()
      .all();
    for (const guard of guards) db.exec(`DROP TRIGGER ${guard}`);
    db.pragma('foreign_keys = OFF');
    db.exec(sql);
    db.close();
  };

  it('nothing where all is there', async () => {
    expect((await check()).losses).toEqual([]);
  });

  it('a reading that was told of and never kept', async () => {
    const [sweepId = ''] = ledger.sweeps.keys();
    ledger.sweeps.get(sweepId)?.levels.push(9000);
    expect((await check()).losses).toContain(`sweep ${sweepId} has not the 4 readings that were told of`);
  });

  it('a sweep that was told of and is gone, whatever its chain says', async () => {
    const sweepId = crypto.randomUUID();
    ledger.hear({ say: 'sweep', sweepId, planned: 3 });
    expect((await check()).losses).toEqual([`sweep ${sweepId} is gone`]);
  });

  it('notes that say otherwise, by what was told and by the chain', async () => {
    changeBy(`UPDATE notes_revision SET notes = '{}'`);
    const { losses } = await check();
    expect(losses.some((loss) => loss.startsWith('notes slipway 1 says {}'))).toBe(true);
    expect(losses.some((loss) => loss.includes('is not what was recorded'))).toBe(true);
  });

  it('an end of the chain that was cut off', async () => {
    changeBy(
      `DELETE FROM link WHERE device_seq = ${head.seq} AND device = (SELECT seq FROM device WHERE device_id = '${head.device}')`,
    );
    const { losses } = await check();
    expect(losses).toContain(`record ${head.seq} of laptop ${head.device.slice(0, 8)} is gone or another`);
  });

  it('half an import, and half a file of another laptop', async () => {
    ledger.announced.set('a.csv', [10_000, 11_500, 12_000, 13_000]);
    files = files.map((file) => ({ ...file, sweeps: new Map([...file.sweeps, [crypto.randomUUID(), []]]) }));
    const [{ fileName } = { fileName: '' }] = files;
    expect((await check()).losses).toEqual([
      'the import of a.csv is half there',
      `${fileName}: 3 of 4 sweeps are here`,
    ]);
    ledger.taken.clear();
    expect((await check()).losses).toContain(`${fileName} is half taken in: 3 of 4 sweeps`);
  });

  it('pages that are no pages', async () => {
    const db = new Database(join(folder, ARCHIVE_FILE));
    const pages = Number(db.pragma('page_count', { simple: true }));
    db.close();
    truncateSync(join(folder, ARCHIVE_FILE), (pages - 4) * 4096);
    expect((await check()).losses[0]).toMatch(/^it can't be opened: /);
  });

  it('a backup that is gone, and one that is another file', async () => {
    const [path = ''] = ledger.backups;
    const watch = createBackupWatch([join(folder, 'backups')]);
    expect(await watch.check(ledger.backups)).toEqual([]);
    const bytes = new Database(path).serialize();
    truncateSync(path, bytes.length - 4096);
    expect(await watch.check(ledger.backups)).toEqual([
      `the backup ${path} is gone, and nothing newer made it needless`,
    ]);
    writeFileSync(path, Buffer.alloc(bytes.length, 1));
    expect(await createBackupWatch([join(folder, 'backups')]).check(ledger.backups)).toEqual([
      `the backup ${path} is not the file that was written`,
    ]);
    rmSync(path);
    expect(await createBackupWatch([join(folder, 'backups')]).check(ledger.backups)).toEqual([
      `the backup ${path} was told of and is not there`,
    ]);
    expect(existsSync(factsPath(path))).toBe(true);
    expect(lonelyFacts(join(folder, 'backups'))).toHaveLength(1);
  });

  it('files that are left over', () => {
    writeFileSync(join(folder, 'tiltwright-restoring.sqlite'), '');
    writeFileSync(join(folder, 'tiltwright.sqlite.tmp'), '');
    expect(strayFiles(folder, 'killed')).toEqual([`tiltwright.sqlite.tmp is left over in ${folder}`]);
    expect(strayFiles(folder, 'put-away')).toHaveLength(2);
  });
});
