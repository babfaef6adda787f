import { openArchive } from '../../../electron/backend/archive/open.ts';

/*
 * A program of its own that is killed inside the transaction that ends a sweep: the packed form is there, the journal is
 * gone, the end is written, and nothing of it is committed.
 */
const [folder, sweepId] = process.argv.slice(2);
if (folder === undefined || sweepId === undefined) throw new Error('folder and sweep are needed');
const archive = openArchive({
  folder,
  session: {
    sessionId: crypto.randomUUID(),
    openedAtMs: 0,
    program: '0',
    host: 'memory',
    utcOffsetMin: 0,
    timeZone: 'UTC',
  },
});
const { stationId, revision } = archive.stations.newestDesign('slipway') ?? { stationId: '', revision: 0 };
const facts = { stationId, operator: '', ambientMc: null, cautionsReadAtMs: 0, startedAtMs: 0 };
archive.write(() => archive.visits.add({ ...facts, visitId: crypto.randomUUID() }));
const seq = archive.write(() =>
  archive.sweeps.add({
    sweepId,
    visit: archive.visits.openOf(stationId)?.seq ?? 0,
    stationId,
    revision,
    portName: 'forward output',
    hasDesign: true,
    purpose: 'check',
    source: 'file',
    sourceName: 'x.csv',
    meter: null,
    testPointLossMdb: 0,
    ambientMc: null,
    plannedCount: 158,
    pluggedIn: '{}',
    startedAtMs: 0,
  }),
);
for (let place = 0; place < 158; place += 1)
  archive.write(() =>
    archive.sweeps.addReading(seq, place, {
      frequencyHz: 54_000_000 + place * 6_000_000,
      meterMdbmv: place * 100,
      kind: null,
      takenAtMs: place,
    }),
  );
archive.write(() => {
  const end = {
    state: 'complete',
    reason: null,
    recovered: false,
    readingCount: 158,
    endedAtMs: 158,
  } as const;
  archive.sweeps.end(seq, end);
  if (archive.sweeps.byId(sweepId)?.state !== 'complete') throw new Error('it has no end');
  process.kill(process.pid, 'SIGKILL');
  // The signal may take a moment to come.
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 10_000);
});
