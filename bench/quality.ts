import { join } from 'node:path';
import Database from 'better-sqlite3';
import type { CallName, Input, Output } from '../core/bridge/contract.ts';
import { dispatch } from '../core/bridge/dispatch.ts';
import { ARCHIVE_FILE, openArchive } from '../electron/backend/archive/open.ts';
import { type Backend, createBackend } from '../electron/backend/backend.ts';
import type { MeterShop } from '../electron/backend/meters/meter-shop.ts';
import { benchSession } from './archive-filled.ts';
import type { BenchRow } from './timing.ts';

const AGAINST = 'bare better-sqlite3 reading the same';
/** As the page asks: a short first page, long ones after it, and histories by the hundreds. */
const FIRST_PAGE = 100;
const PAGE = 1000;
const TRENDS = 500;
/** Of so many stations the levels of every sweep are read, by both. */
const SOME = 250;
const COLD_RUNS = 3;
const WARM_RUNS = 9;
const PERIOD_DAYS = 30;
const DAY_MS = 86_400_000;

const signal = new AbortController().signal;
const nothing = () => undefined;
const middle = (times: number[]) => times.sort((a, b) => a - b)[times.length >> 1] ?? Number.NaN;

const openBackend = (dataDir: string): Promise<Backend> =>
  createBackend({
    dataDir,
    host: 'memory',
    version: '0',
    meters: { profiles: () => [] } as unknown as MeterShop,
    emit: nothing,
    now: () => new Date(),
    newId: () => crypto.randomUUID(),
    log: { info: nothing, warn: nothing, error: nothing },
  });

/** Through the one door, as a page's question comes. */
async function ask<N extends CallName>({ handlers }: Backend, name: N, input: Input<N>): Promise<Output<N>> {
  const reply = await dispatch(handlers, name, input, signal, (where, fault) => {
    throw new Error(where, { cause: fault });
  });
  if (!reply.ok) throw new Error(`${name}: ${JSON.stringify(reply)}`);
  return reply.value as Output<N>;
}

async function allStations(backend: Backend): Promise<readonly string[]> {
  const ids: string[] = [];
  for (let after: number | null = 0; after !== null; ) {
    const limit: number = after === 0 ? FIRST_PAGE : PAGE;
    const page: Output<'quality.stations'> = await ask(backend, 'quality.stations', { after, limit });
    ids.push(...page.stations.map(({ stationId }) => stationId));
    after = page.next;
  }
  return ids;
}
async function allTrends(backend: Backend, ids: readonly string[]): Promise<void> {
  for (let from = 0; from < ids.length; from += TRENDS)
    await ask(backend, 'quality.trends', { stationIds: ids.slice(from, from + TRENDS) });
}

type Asked = Readonly<{ what: string; bare: string; work: (backend: Backend) => Promise<unknown> }>;

/** An archive in which nothing was ever judged. */
function forget(folder: string): void {
  const db = new Database(join(folder, ARCHIVE_FILE));
  db.exec('DELETE FROM station_face; DELETE FROM judged_sweep; DELETE FROM judged_basis');
  db.close();
}

/** The median of some first looks, each by a program that has just been started. */
async function coldMs(folder: string, { work }: Asked): Promise<number> {
  const times: number[] = [];
  for (let run = 0; run < COLD_RUNS; run += 1) {
    forget(folder);
    const backend = await openBackend(folder);
    const start = performance.now();
    await work(backend);
    times.push(performance.now() - start);
    await backend.close();
  }
  return middle(times);
}
async function warmMs(backend: Backend, { work }: Asked): Promise<number> {
  const times: number[] = [];
  for (let run = -2; run < WARM_RUNS; run += 1) {
    const start = performance.now();
    await work(backend);
    if (run >= 0) times.push(performance.now() - start);
  }
  return middle(times);
}

/** The same facts in tables without any thought: a row a level, and a row a sweep with what it came to. */
function bareDatabase(folder: string, periodFromMs: number): Database.Database {
  const archive = openArchive({ folder, session: benchSession() });
  const bare = new Database(join(folder, 'bare-quality.sqlite'));
  bare.exec(`CREATE TABLE level (part TEXT, sweep INTEGER, place INTEGER, frequency INTEGER, level INTEGER,
      PRIMARY KEY (part, sweep, place)) WITHOUT ROWID;
    CREATE TABLE figure (part TEXT, sweep INTEGER, station TEXT, at INTEGER, level REAL, tilt REAL, flatness REAL,
      worst REAL, mhz REAL, words TEXT, PRIMARY KEY (part, sweep)) WITHOUT ROWID;`);
  const addLevel = bare.prepare('INSERT INTO level VALUES (?, ?, ?, ?, ?)');
  const addFigure = bare.prepare('INSERT INTO figure VALUES (?, ?, ?, ?, 0.1, 0.2, 0.9, 0.6, 867, ?)');
  const add = (
    part: string,
    withLevels: boolean,
    sweep: Readonly<{ seq: number; stationId: string; startedAtMs: number }>,
  ) => {
    addFigure.run(
      part,
      sweep.seq,
      sweep.stationId,
      sweep.startedAtMs,
      'All good. Worst channel 0.6 dB from design.',
    );
    if (!withLevels) return;
    archive.sweeps.readings(sweep.seq).forEach(({ frequencyHz, meterMdbmv }, place) => {
      addLevel.run(part, sweep.seq, place, frequencyHz, meterMdbmv);
    });
  };
  bare.transaction(() => {
    for (const sweep of archive.sweeps.newestOfEach()) add('stations', true, sweep);
    archive.stations.list().forEach(({ stationId }, i) => {
      for (const sweep of archive.sweeps.ofStation(stationId)) {
        add('every', false, sweep);
        if (i < SOME) add('trends', true, sweep);
        if (i === 0) add('history', true, sweep);
        if (sweep.startedAtMs >= periodFromMs) add('period', true, sweep);
      }
    });
  })();
  archive.close();
  return bare;
}

/**
 * How long the looks of quality assurance take through the handlers: cold, with nothing ever judged, and warm.
 * @param folder  of a filled archive; nothing but what was judged is changed
 */
export async function measureQuality(folder: string): Promise<readonly BenchRow[]> {
  const filled = openArchive({ folder, session: benchSession() });
  const stationIds = filled.stations.list().map(({ stationId }) => stationId);
  const lastMs = Math.max(...filled.sweeps.newestOfEach().map(({ startedAtMs }) => startedAtMs));
  filled.close();
  const periodFromMs = lastMs - PERIOD_DAYS * DAY_MS;
  const [first = ''] = stationIds;
  const some = stationIds.slice(0, SOME);
  const period = { from: new Date(periodFromMs).toISOString(), to: new Date(lastMs + DAY_MS).toISOString() };
  const looks: readonly Asked[] = [
    { what: `newest sweep of ${stationIds.length} stations`, bare: 'stations', work: allStations },
    {
      what: `trends of ${some.length} stations`,
      bare: 'trends',
      work: (backend) => allTrends(backend, some),
    },
    {
      what: 'history of the first station',
      bare: 'history',
      work: (backend) => ask(backend, 'quality.history', { stationId: first, portName: null }),
    },
    {
      what: `visits of ${PERIOD_DAYS} days`,
      bare: 'period',
      work: (backend) => ask(backend, 'quality.period', period),
    },
  ];
  const cold: number[] = [];
  for (const look of looks) cold.push(await coldMs(folder, look));
  const backend = await openBackend(folder);
  await allStations(backend);
  const warm: number[] = [];
  for (const look of looks) warm.push(await warmMs(backend, look));
  await allTrends(backend, stationIds);
  const everyTrendMs = await warmMs(backend, {
    what: '',
    bare: '',
    work: (asked) => allTrends(asked, stationIds),
  });
  await backend.close();

  const bare = bareDatabase(folder, periodFromMs);
  const bareLevels = bare.prepare<[string], { level: number }>('SELECT * FROM level WHERE part = ?');
  const bareFigures = bare.prepare<[string], { level: number }>('SELECT * FROM figure WHERE part = ?');
  const bareMs = (statement: typeof bareLevels, part: string): number => {
    const times: number[] = [];
    for (let run = -2; run < WARM_RUNS; run += 1) {
      const start = performance.now();
      let sum = 0;
      for (const { level } of statement.iterate(part)) sum += level;
      if (run >= 0 && sum !== 0) times.push(performance.now() - start);
    }
    return middle(times);
  };
  const row = (what: string, ms: number, against: number): BenchRow => ({
    what,
    medianMs: ms,
    against: AGAINST,
    ratio: ms / against,
  });
  const rows = looks.flatMap(({ what, bare: part }, i): readonly BenchRow[] => {
    const levelsMs = bareMs(bareLevels, part);
    const figuresMs = bareMs(bareFigures, part);
    return [
      row(`${what}, never judged`, cold[i] ?? Number.NaN, levelsMs),
      row('  bare: their levels', levelsMs, levelsMs),
      row(`${what}, judged before`, warm[i] ?? Number.NaN, figuresMs),
      row('  bare: what they came to', figuresMs, figuresMs),
    ];
  });
  const allFiguresMs = bareMs(bareFigures, 'every');
  bare.close();
  return [...rows, row(`trends of ${stationIds.length} stations, kept`, everyTrendMs, allFiguresMs)];
}
