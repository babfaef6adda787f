import { cpSync, existsSync, mkdirSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { lastVerified, listBackups } from '../../electron/backend/archive/backup-list.ts';
import { migrate, steps } from '../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { restoreArchive } from '../../electron/backend/archive/restore.ts';
import {
  makeOldArchive,
  OLD_COUNT,
  OLD_SETTINGS,
  OLD_VERSION,
  oldId,
  oldReadings,
  oldSweepId,
} from '../../tests/support/old-archive.ts';
import { checkArchive, copyArchive, type Extent, type Found } from './check-archive.ts';
import { createBackupWatch } from './check-backups.ts';
import { lonelyFacts, strayFiles } from './check-leftovers.ts';
import { createLedger, type OtherFile } from './ledger.ts';
import { putAway } from './put-away.ts';
import { type Order, type Place, places, type Said } from './said.ts';
import type { Durations, Moment } from './victim.ts';
import { below, oneOf, shuffled } from './work.ts';

const DAY_MS = 24 * 3_600_000;
const BASE_MS = Date.parse('2026-03-02T08:00:00Z');
/** Half of the kills of a working program come at any moment within this. */
const ANY_MOST_MS = 1500;
const MIGRATING = 'migrating an older archive';
const LINKING = 'linking the records of an older archive';
const RESTORING = 'restoring a backup';
const MIGRATION_KILLS = 3;

/** One archive, from an older version on through many kills, to a restored backup. */
export type Life = ReturnType<typeof createLife>;

export function createLife({
  folder: own,
  files,
  oldSweeps,
  chance,
  durations,
}: Readonly<{
  folder: string;
  files: readonly OtherFile[];
  oldSweeps: number;
  chance: () => number;
  durations: Durations;
}>) {
  const folder = join(own, 'data');
  const stick = join(own, 'stick');
  const copy = join(own, 'copy');
  const restored = join(own, 'restored');
  mkdirSync(stick);
  const ledger = createLedger();
  const backups = createBackupWatch([join(folder, 'backups'), stick]);
  let day = 0;
  let aims: Place[] = [];

  makeOldArchive(folder, oldSweeps);
  for (let seq = 1; seq <= oldSweeps; seq += 1) {
    const levels = oldReadings(seq).map(({ meterMdbmv }) => meterMdbmv);
    const end = seq === oldSweeps ? null : ({ state: 'partial', count: levels.length } as const);
    ledger.sweeps.set(oldSweepId(seq), { levels, planned: OLD_COUNT, end });
    // Their bytes are of no meter.
    ledger.reread.add(oldSweepId(seq));
  }
  ledger.hear({ say: 'visit', visitId: oldId(11), operator: 'R. Voss' });
  ledger.hear({ say: 'visit-ended', visitId: oldId(11), note: 'first' });
  ledger.hear({ say: 'settings', revision: 1, json: OLD_SETTINGS });
  // Some steps came earlier, with a program in between.
  const from = oneOf(chance, [OLD_VERSION, OLD_VERSION, 6, 7, 8]);
  const db = new Database(join(folder, ARCHIVE_FILE));
  migrate(db, steps.slice(0, from));
  db.close();

  const order = (task: Order['task'], first: Place | null, more: Partial<Order> = {}): Order => {
    day += 1;
    return {
      ...{ task, folder, stick, first, from: '', seed: below(chance, 2 ** 31) },
      // A day goes by, and a few hours: what is daily is due at each start.
      nowMs: BASE_MS + day * (DAY_MS + 3_600_000),
      files: files.map(({ path, fileName }) => ({ path, fileName })),
      ...more,
    };
  };
  const within = (place: Place, step: number | null = null): Moment => ({
    ...{ kind: 'in', place, step },
    afterMs: chance() * durations.of(place),
  });
  /** Every kind of work in turn, in an order by chance. */
  const nextAim = (): Place => {
    if (aims.length === 0)
      aims = shuffled(
        chance,
        places.filter((place) => ![MIGRATING, LINKING, RESTORING].includes(place)),
      );
    return aims.pop() ?? 'reading a sweep';
  };

  const backupFor = () => lastVerified(listBackups(join(folder, 'backups')));
  const nothing: Extent = { records: 0, sweeps: 0, readings: 0 };

  return {
    folder: own,
    hear: (said: Said) => ledger.hear(said),
    /** What the next program does, and when it is killed. */
    plan(kill: number): Readonly<{ order: Order; moment: Moment }> {
      if (kill < MIGRATION_KILLS) {
        const left = steps.slice(from).map((_, i) => from + i + 1);
        const step = kill === 0 ? (left[0] ?? steps.length) : oneOf(chance, left);
        const moment =
          kill === MIGRATION_KILLS - 1 && chance() < 0.5 ? within(LINKING) : within(MIGRATING, step);
        return { order: order('work', null), moment };
      }
      if (chance() < 0.5)
        return { order: order('work', null), moment: { kind: 'any', afterMs: chance() * ANY_MOST_MS } };
      const aim = nextAim();
      return { order: order('work', aim), moment: within(aim) };
    },
    async check(): Promise<Found> {
      rmSync(copy, { recursive: true, force: true });
      copyArchive(folder, copy);
      const found = await checkArchive(copy, ledger, files);
      const losses = [
        ...found.losses,
        ...(await backups.check(ledger.backups)),
        ...[...ledger.given]
          .filter((path) => !existsSync(path))
          .map((path) => `${path} was given and is gone`),
        ...strayFiles(folder, 'killed'),
        ...strayFiles(stick, 'killed'),
      ];
      return { ...found, losses };
    },
    /** A backup is put back in a copy of the whole folder. */
    planRestore(): Readonly<{ order: Order; moment: Moment }> {
      rmSync(restored, { recursive: true, force: true });
      cpSync(folder, restored, { recursive: true });
      const from = backupFor()?.path ?? '';
      return { order: order('restore', null, { folder: restored, from }), moment: within(RESTORING) };
    },
    async checkRestore(): Promise<Found> {
      const backup = backupFor();
      if (backup === undefined) return { losses: ['there is no backup'], extent: nothing, recovered: 0 };
      const losses: string[] = [];
      const keptAside = () => readdirSync(restored).filter((name) => /kept-aside.*\.sqlite$/.test(name));
      /** Wherever the archive is now, all of it is there. */
      const [aside] = keptAside();
      rmSync(copy, { recursive: true, force: true });
      copyArchive(restored, copy, aside);
      losses.push(...(await checkArchive(copy, ledger, files)).losses);
      losses.push(...strayFiles(restored, 'killed'));
      // Once more to its end, as a person would.
      const { path, facts } = backup;
      const nowMs = BASE_MS + day * (DAY_MS + 3_600_000) + 5000;
      await restoreArchive({ folder: restored, from: path, nowMs, signal: new AbortController().signal });
      if (existsSync(join(restored, 'tiltwright-restoring.sqlite')))
        losses.push('half a restored archive is left over');
      const upTo = createLedger();
      for (const [fileName, levels] of ledger.announced) upTo.announced.set(fileName, levels);
      for (const [key, head] of ledger.heads)
        if (head.device === facts.device && head.seq <= facts.seq) upTo.heads.set(key, head);
      const found = await checkArchive(restored, upTo, []);
      const isThere = found.extent.records >= facts.records && found.extent.sweeps >= facts.sweeps;
      if (!isThere)
        losses.push(`the restored archive has ${found.extent.records} of ${facts.records} records`);
      losses.push(...found.losses);
      return { ...found, losses };
    },
    /** The archive is used once more as on any day; nothing of the kills is left over then. */
    async end(): Promise<Readonly<{ losses: readonly string[]; extent: Extent; backups: number }>> {
      const made = await putAway({ folder, stick, nowMs: order('work', null).nowMs });
      const found = await checkArchive(folder, ledger, files);
      const losses = [
        ...found.losses,
        ...(await backups.check([...ledger.backups, ...made], true)),
        ...strayFiles(folder, 'put-away'),
        ...strayFiles(stick, 'put-away'),
        ...lonelyFacts(join(folder, 'backups')),
        ...lonelyFacts(stick),
      ];
      return { losses, extent: found.extent, backups: backups.count() };
    },
  };
}
