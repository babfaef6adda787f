import { copyFileSync, existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../../electron/backend/archive/backup.ts';
import {
  type BackupFacts,
  backupName,
  factsPath,
  lastVerified,
  listBackups,
  rotate,
  writeFacts,
} from '../../../electron/backend/archive/backup-list.ts';
import type { Archive } from '../../../electron/backend/archive/open.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;
const nothing = () => undefined;
const work = (folder: string, madeAtMs = Date.parse('2026-03-02T09:00:00Z')) =>
  ({ folder, madeAtMs, program: '0.0.0-test', signal, told: nothing }) as const;

async function recorded(sweeps = 1) {
  const bench = await joined();
  for (let i = 0; i < sweeps; i += 1) await bench.endOf(await bench.start(40));
  return bench;
}
/** Many pages, so that copying takes several turns. */
const fill = (archive: Archive, from: number, count: number) =>
  archive.write(() => {
    for (let i = from; i < from + count; i += 1) {
      archive.stations.add(`filler-${i}`, 1_700_000_000_000 + i);
      archive.stations.addRevision({
        stationId: `filler-${i}`,
        revision: 1,
        name: `Filler ${i}`,
        design: JSON.stringify({ filler: 'x'.repeat(3000) }),
        fileName: 'f.json',
        addedAtMs: 1_700_000_000_000 + i,
      });
    }
  });

describe('a backup', () => {
  it('is one file that opens where nothing can be written, with all that the archive holds', async () => {
    const bench = await recorded();
    const folder = throwAwayFolder();
    const { path, facts } = await backUp(bench.archive.copies, work(folder));
    const head = bench.archive.head();
    expect(facts).toMatchObject({
      device: head.device,
      seq: head.seq,
      hash: head.hash,
      broken: 0,
      sweeps: 1,
    });
    expect(readdirSync(folder).toSorted()).toEqual([
      'tiltwright-20260302T090000Z.json',
      'tiltwright-20260302T090000Z.sqlite',
    ]);
    const db = new Database(path, { readonly: true });
    expect(db.pragma('journal_mode', { simple: true })).toBe('delete');
    expect(db.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(db.prepare('SELECT count(*) FROM sweep_end').pluck().get()).toBe(1);
    db.close();
    expect(readdirSync(folder)).toHaveLength(2);
    // What the archive itself would say of it.
    const own = throwAwayFolder();
    copyFileSync(path, join(own, 'tiltwright.sqlite'));
    const copy = openTestArchive(own);
    expect((await verify(copy, signal)).broken).toEqual([]);
    expect(copy.head()).toEqual(head);
  });

  it('goes on while records are added, loses none of them, and the archive none either', async () => {
    const bench = await recorded();
    fill(bench.archive, 0, 1500);
    const before = bench.archive.head().seq;
    const folder = throwAwayFolder();
    let added = 0;
    let turns = 0;
    const made = await backUp(bench.archive.copies, {
      ...work(folder),
      told: (what) => {
        if (what !== 'copying') return;
        turns += 1;
        fill(bench.archive, 10_000 + added, 3);
        added += 3;
      },
    });
    expect(turns).toBeGreaterThan(3);
    expect(made.facts.seq).toBeGreaterThan(before);
    expect(made.facts.seq).toBeLessThanOrEqual(bench.archive.head().seq);
    expect(made.facts.broken).toBe(0);
    expect((await verify(bench.archive, signal)).broken).toEqual([]);
    expect(bench.archive.head().seq).toBe(before + added);
  });

  it('never takes the place of one that was made in the same second', async () => {
    const bench = await recorded();
    const folder = throwAwayFolder();
    const first = await backUp(bench.archive.copies, work(folder));
    const bytes = readFileSync(first.path);
    await bench.endOf(await bench.start(40));
    const second = await backUp(bench.archive.copies, work(folder));
    expect(second.path).not.toBe(first.path);
    expect(readFileSync(first.path).equals(bytes)).toBe(true);
    expect(listBackups(folder).map(({ facts }) => facts.sweeps)).toEqual([1, 2]);
  });

  it('puts away what a killed one left, facts without a copy among it, and nothing else', async () => {
    const bench = await recorded();
    const folder = throwAwayFolder();
    const first = await backUp(bench.archive.copies, work(folder, Date.parse('2026-03-01T09:00:00Z')));
    const left = ['sqlite.partial', 'sqlite.partial-journal', 'json.partial', 'json'].map(
      (ending) => `tiltwright-20260228T090000Z.${ending}`,
    );
    for (const name of [...left, 'notes.json']) writeFileSync(join(folder, name), '{}');
    const second = await backUp(bench.archive.copies, work(folder));
    const whole = [first, second].flatMap(({ path }) => [path, factsPath(path)]);
    expect(readdirSync(folder).toSorted()).toEqual(
      ['notes.json', ...whole.map((path) => basename(path))].toSorted(),
    );
  });

  it('with a record that is not as it was recorded is told as such, counts as none, and lets none go', async () => {
    const bench = await recorded(2);
    const folder = throwAwayFolder();
    const whole = await backUp(bench.archive.copies, work(folder));
    const db = new Database(bench.archive.path);
    db.exec(
      "DROP TRIGGER sweep_is_never_changed; UPDATE sweep SET port_name = 'forward input' WHERE seq = 1",
    );
    db.close();
    const made = await backUp(bench.archive.copies, work(folder, Date.parse('2026-03-02T10:00:00Z')));
    expect(made.facts.broken).toBe(1);
    expect(lastVerified(listBackups(folder))?.path).toBe(whole.path);
    expect(rotate(folder, made, 0)).toEqual([]);
    expect(listBackups(folder)).toHaveLength(2);
  });

  it('leaves nothing that could be taken for one when it is stopped or its drive is full', async () => {
    const bench = await recorded();
    fill(bench.archive, 0, 400);
    const folder = throwAwayFolder();
    const stop = new AbortController();
    const stopped = backUp(bench.archive.copies, {
      ...work(folder),
      signal: stop.signal,
      told: () => stop.abort(new Error('stopped by hand')),
    });
    await expect(stopped).rejects.toThrow('stopped by hand');
    expect(readdirSync(folder)).toEqual([]);
    const full = { ...bench.archive.copies, bytes: () => 1e15 };
    await expect(backUp(full, work(folder))).rejects.toMatchObject({
      code: 'no-backup',
      where: folder,
      help: expect.stringMatching(/^the backup needs \d+ MB, and \d+ MB are free there; make room/),
    });
    expect(readdirSync(folder)).toEqual([]);
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    await expect(backUp(bench.archive.copies, work(join(file, 'in-it')))).rejects.toMatchObject({
      code: 'no-backup',
      help: expect.stringContaining('the older ones are as they were'),
    });
    // The archive goes on.
    await bench.endOf(await bench.start());
  });

  it('that is not what the archive holds is thrown away', async () => {
    const bench = await recorded();
    const other = await recorded(2);
    const folder = throwAwayFolder();
    const exchanged = { ...bench.archive.copies, copyTo: other.archive.copies.copyTo };
    await expect(backUp(exchanged, work(folder))).rejects.toThrow(/is not what the archive holds/);
    const torn = {
      ...bench.archive.copies,
      copyTo: async (path: string) => {
        await bench.archive.copies.copyTo(path, nothing);
        const bytes = readFileSync(path);
        bytes.fill(0, 8 * 4096, 12 * 4096);
        writeFileSync(path, bytes);
      },
    };
    await expect(backUp(torn, work(folder))).rejects.toMatchObject({ code: 'damaged' });
    expect(readdirSync(folder)).toEqual([]);
  });
});

describe('older backups', () => {
  const facts = (madeAtMs: number, changed: Partial<BackupFacts> = {}): BackupFacts => ({
    format: 'tiltwright-backup/1',
    madeAt: new Date(madeAtMs).toISOString(),
    program: '0',
    device: 'a',
    seq: 1,
    hash: '0'.repeat(64),
    records: 1,
    sweeps: 0,
    broken: 0,
    bytes: 3,
    sha256: '0'.repeat(64),
    ...changed,
  });
  const put = async (folder: string, madeAtMs: number, changed: Partial<BackupFacts> = {}) => {
    const path = join(folder, backupName(madeAtMs));
    writeFileSync(path, 'abc');
    const about = facts(madeAtMs, changed);
    await writeFacts(path, about);
    return { path, facts: about };
  };
  const DAY_MS = 86_400_000;
  const today = Date.parse('2026-03-31T09:00:00Z');

  it('go only when a newer one of the same archive was found whole, daily, weekly and monthly ones stay', async () => {
    const folder = throwAwayFolder();
    for (let i = 60; i >= 1; i -= 1) await put(folder, today - i * DAY_MS);
    const others = [
      await put(folder, today - 100 * DAY_MS, { device: 'b' }),
      await put(folder, today - 99 * DAY_MS, { device: 'b' }),
      await put(folder, today - 98 * DAY_MS, { broken: 2 }),
    ];
    expect(rotate(folder, { path: '', facts: facts(today, { broken: 1 }) }, 0)).toEqual([]);
    const made = await put(folder, today);
    const gone = rotate(folder, made, 0);
    expect(gone).toHaveLength(61 - 13);
    const left = listBackups(folder);
    expect(left[0]?.path).toBe(made.path);
    for (const { path } of others) expect(left.map((one) => one.path)).toContain(path);
    for (const path of gone) expect(existsSync(path) || existsSync(factsPath(path))).toBe(false);
    expect(rotate(folder, made, 0)).toEqual([]);
  });

  it('without their facts, cut short, or by another name are no backups', async () => {
    const folder = throwAwayFolder();
    const { path } = await put(folder, today);
    expect(listBackups(folder)).toHaveLength(1);
    writeFileSync(path, 'ab');
    expect(listBackups(folder)).toEqual([]);
    writeFileSync(path, 'abc');
    writeFileSync(factsPath(path), '{"format":"tiltwright-backup/1"');
    writeFileSync(join(folder, 'tiltwright-20260302T090000Z.sqlite.partial'), 'abc');
    expect(listBackups(folder)).toEqual([]);
    expect(listBackups(join(folder, 'not-there'))).toEqual([]);
    expect(statSync(path).size).toBe(3);
  });
});
