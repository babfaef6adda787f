import { statSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { ARCHIVE_FILE, type Archive, openArchive } from '../electron/backend/archive/open.ts';
import { createBackend } from '../electron/backend/backend.ts';
import type { MeterShop } from '../electron/backend/meters/meter-shop.ts';
import { benchSession, CHANNELS } from './archive-filled.ts';
import type { BenchRow } from './timing.ts';

export type ArchiveBench = Readonly<{
  sweeps: number;
  stations: number;
  bytesAReading: number;
  /** Nothing judged before: the list as it is shown at once, and until every station in it is judged. */
  firstGlanceMs: number;
  firstListMs: number;
  verifyMs: number;
  rows: readonly BenchRow[];
}>;

const AGAINST = 'bare better-sqlite3, a row a reading';
const RUNS = 9;
const nothing = () => undefined;
const noMeters = { profiles: () => [] } as unknown as MeterShop;

const medianMs = async (work: () => unknown): Promise<number> => {
  const times: number[] = [];
  for (let run = -2; run < RUNS; run += 1) {
    const start = performance.now();
    await work();
    if (run >= 0) times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[RUNS >> 1] ?? Number.NaN;
};

/** The same facts as a database without any thought would hold them: a row a reading, a row a station. */
function bareDatabase(folder: string, archive: Archive, sweepCount: number): Database.Database {
  const bare = new Database(join(folder, 'bare.sqlite'));
  bare.exec(`CREATE TABLE reading (sweep INTEGER, place INTEGER, frequency INTEGER, level INTEGER, kind TEXT, at INTEGER,
      PRIMARY KEY (sweep, place)) WITHOUT ROWID;
    CREATE TABLE newest (station INTEGER PRIMARY KEY, sweep INTEGER);
    CREATE TABLE station (seq INTEGER PRIMARY KEY, station_id TEXT, name TEXT, revision INTEGER, sweeps INTEGER,
      open INTEGER, standing TEXT);
    CREATE TABLE said (operator TEXT, port TEXT, source TEXT);`);
  const say = bare.prepare('INSERT INTO said VALUES (?, ?, ?)');
  const add = bare.prepare('INSERT OR IGNORE INTO reading VALUES (?, ?, ?, ?, ?, ?)');
  const copy = (seq: number) =>
    archive.sweeps.readings(seq).forEach(({ frequencyHz, meterMdbmv, kind, takenAtMs }, place) => {
      add.run(seq, place, frequencyHz, meterMdbmv, kind, takenAtMs);
    });
  bare.transaction(() => {
    const [first] = archive.stations.list();
    for (const { seq } of archive.sweeps.ofStation(first?.stationId ?? '')) copy(seq);
    const newest = bare.prepare('INSERT INTO newest VALUES (NULL, ?)');
    for (const { seq } of archive.sweeps.newestOfEach()) {
      copy(seq);
      newest.run(seq);
    }
    const station = bare.prepare('INSERT INTO station VALUES (NULL, ?, ?, 1, 20, 0, ?)');
    for (const { stationId, face } of archive.stations.list())
      station.run(stationId, stationId, JSON.stringify(JSON.parse(face ?? 'null')?.standing));
    for (let sweep = 0; sweep < sweepCount; sweep += 1) say.run('R. Voss', 'forward output', 'Level 4');
  })();
  return bare;
}

/** The archive of a folder, as it answers; a bare database is made beside it. */
export async function measureArchive(folder: string, sweepCount: number): Promise<ArchiveBench> {
  const signal = new AbortController().signal;
  const bytes = statSync(join(folder, ARCHIVE_FILE)).size;

  const backend = await createBackend({
    dataDir: folder,
    host: 'memory',
    version: '0',
    meters: noMeters,
    emit: nothing,
    now: () => new Date(),
    newId: () => crypto.randomUUID(),
    log: { info: nothing, warn: nothing, error: nothing },
  });
  const { handlers } = backend;
  const start = performance.now();
  await handlers['stations.list']({ atOnce: true }, signal);
  const firstGlanceMs = performance.now() - start;
  const { stations } = await handlers['stations.list']({}, signal);
  const firstListMs = performance.now() - start;
  const listMs = await medianMs(() => handlers['stations.list']({}, signal));
  const historyMs = await medianMs(async () => {
    const sheet = await handlers['stations.open']({ stationId: stations[0]?.stationId ?? '' }, signal);
    for (const { sweepId } of sheet.sweeps) await handlers['sweeps.open']({ sweepId }, signal);
  });
  await backend.close();

  const archive = openArchive({ folder, session: benchSession() });
  const scanMs = await medianMs(() => {
    let sum = 0;
    for (const { seq } of archive.sweeps.newestOfEach())
      for (const { meterMdbmv } of archive.sweeps.readings(seq)) sum += meterMdbmv ?? 0;
    return sum;
  });
  const everWhen = { fromMs: 0, beforeMs: Number.MAX_SAFE_INTEGER };
  const searchMs = await medianMs(() => archive.search.find({ words: ['nobody'], most: 6, ...everWhen }));
  const bare = bareDatabase(folder, archive, sweepCount);
  const first = archive.sweeps.ofStation(stations[0]?.stationId ?? '').map(({ seq }) => seq);
  const verifyStart = performance.now();
  const verify = archive.verify();
  let step = verify.next();
  while (step.done !== true) step = verify.next();
  if (step.value.broken.length > 0) throw new Error(step.value.broken[0]?.words);
  const verifyMs = performance.now() - verifyStart;
  archive.close();

  const bareStations = bare.prepare('SELECT * FROM station ORDER BY seq');
  const bareReadings = bare.prepare('SELECT * FROM reading WHERE sweep = ? ORDER BY place');
  const bareNewest = bare.prepare<[], { level: number }>(
    'SELECT r.* FROM newest n JOIN reading r ON r.sweep = n.sweep ORDER BY n.station, r.place',
  );
  const bareListMs = await medianMs(() => bareStations.all());
  const bareHistoryMs = await medianMs(() => first.map((seq) => bareReadings.all(seq)));
  const bareScanMs = await medianMs(() => {
    let sum = 0;
    for (const { level } of bareNewest.iterate()) sum += level;
    return sum;
  });
  const bareSaid = bare
    .prepare('SELECT count(*) FROM said WHERE operator LIKE @word OR port LIKE @word OR source LIKE @word')
    .pluck();
  const bareSearchMs = await medianMs(() => bareSaid.get({ word: '%nobody%' }));
  bare.close();
  const row = (what: string, ms: number, bareMs: number): readonly BenchRow[] => [
    { what, medianMs: ms, against: AGAINST, ratio: ms / bareMs },
    { what: `  ${AGAINST}`, medianMs: bareMs, against: AGAINST, ratio: 1 },
  ];
  return {
    sweeps: sweepCount,
    stations: stations.length,
    bytesAReading: bytes / (sweepCount * CHANNELS),
    firstGlanceMs,
    firstListMs,
    verifyMs,
    rows: [
      ...row(`list of ${stations.length} stations with standing, by the handler`, listMs, bareListMs),
      ...row(`${first.length} sweeps of one station, by the handlers`, historyMs, bareHistoryMs),
      ...row(`newest sweep of ${stations.length} stations, with levels`, scanMs, bareScanMs),
      ...row(`a word that nobody wrote, in ${sweepCount} sweeps and their visits`, searchMs, bareSearchMs),
    ],
  };
}
