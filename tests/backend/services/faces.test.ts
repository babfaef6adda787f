import { expect, it } from 'vitest';
import { fillArchive } from '../../../bench/archive-filled.ts';
import { FIRST_SETTINGS } from '../../../core/bridge/settings-calls.ts';
import { rowsAtPort } from '../../../core/line/port-level.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';
import { createDesigns, portOf } from '../../../electron/backend/services/designs.ts';
import { createSettings } from '../../../electron/backend/services/settings.ts';
import { createStandings } from '../../../electron/backend/services/standing.ts';
import { createStations } from '../../../electron/backend/services/stations.ts';
import { lookInto, openTestArchive, testParts, throwAwayFolder } from '../../support/archive.ts';

const signal = new AbortController().signal;
const STATIONS = 140;
/** So many are judged even where the list is wanted at once. */
const AT_ONCE = 100;

/** As filled by many trucks; every station but the last was swept. */
function filledFolder(): string {
  const folder = throwAwayFolder();
  const archive = fillArchive(folder, 200 + 2 * (STATIONS - 2), STATIONS - 1);
  archive.write(() => {
    archive.stations.add('QM-last', 0);
    const newest = archive.stations.newestDesign('QM-00000');
    if (newest === undefined) throw new Error('no design');
    archive.stations.addRevision({ ...newest, stationId: 'QM-last', name: 'QM-last', fileName: 'last' });
  });
  archive.close();
  return folder;
}

function opened(folder: string) {
  const archive = openTestArchive(folder);
  const parts = { ...testParts(), archive };
  const designs = createDesigns(archive);
  const settings = createSettings(parts, designs);
  const standings = createStandings(archive, designs, settings);
  const stations = createStations(parts, designs, standings, {} as Parameters<typeof createStations>[3]);
  return { archive, designs, settings, stations };
}

it('shows what the whole judgement of every newest sweep says, number by number', async () => {
  const { archive, designs, stations } = opened(filledFolder());
  const listed = (await stations.list({}, signal)).stations;
  expect(listed).toHaveLength(STATIONS);
  for (const sweep of archive.sweeps.newestOfEach()) {
    const { design } = portOf(designs.at(sweep.stationId, sweep.revision).station, sweep.portName);
    if (design === undefined) throw new Error('no design line');
    const readings = archive.sweeps.readings(sweep.seq).map(({ frequencyHz, meterMdbmv, kind }) => ({
      frequencyMhz: frequencyHz / 1e6,
      meterDbmv: meterMdbmv === null ? null : meterMdbmv / 1000,
      kind,
    }));
    const whole = standingAgainstDesign(rowsAtPort(readings, 20), design, {
      uncertainty: { meter: FIRST_SETTINGS.meter, ambientC: 15 },
    });
    if (!whole.ok) throw new Error(whole.where);
    expect(listed.find(({ stationId }) => stationId === sweep.stationId)?.standing).toMatchObject({
      sweepId: sweep.sweepId,
      verdict: whole.value.verdict,
      headline: whole.value.headline,
      worstDb: whole.value.worst.deviationDb,
      worstMhz: whole.value.worst.frequencyMhz,
    });
  }
});

it('lists at once what was read and when, judges a hundred, and gives the rest when asked: the same in the end', async () => {
  const folder = filledFolder();
  const { stations, archive } = opened(folder);
  const { stations: glanced, waiting = [] } = await stations.list({ atOnce: true }, signal);
  const first = glanced.map((row) => ({ ...row }));
  expect(waiting).toHaveLength(STATIONS - 1 - AT_ONCE);
  const rest = (await stations.list({ of: [...waiting] }, signal)).stations;
  expect(rest.map(({ stationId }) => stationId)).toEqual(waiting);
  const filled = first.map((row) => rest.find(({ stationId }) => stationId === row.stationId) ?? row);
  expect(filled).toEqual((await stations.list({}, signal)).stations);
  first.forEach((row, i) => {
    if (!waiting.includes(row.stationId)) return;
    const judged = filled[i]?.standing;
    expect(judged?.verdict).not.toBeNull();
    expect(row.standing).toEqual({ ...judged, verdict: null, headline: '', worstDb: null, worstMhz: null });
  });
  expect((await stations.list({ atOnce: true }, signal)).waiting).toEqual([]);
  expect(archive.stations.list(['QM-last', 'nowhere'])).toHaveLength(1);
});

it('after a change of settings shows what was kept, without the verdict that no longer holds', async () => {
  const { stations, settings } = opened(filledFolder());
  const before = (await stations.list({}, signal)).stations;
  const { settings: now, revision } = settings.read();
  settings.change({ basedOn: revision, settings: { ...now, meter: { ...now.meter, accuracyDb: 0 } } });
  const { stations: rows, waiting = [] } = await stations.list({ atOnce: true }, signal);
  expect(waiting).toHaveLength(STATIONS - 1 - AT_ONCE);
  for (const id of waiting) {
    const row = rows.find(({ stationId }) => stationId === id);
    const old = before.find(({ stationId }) => stationId === id);
    expect(row).toEqual({
      ...old,
      standing: { ...old?.standing, verdict: null, headline: '', worstDb: null, worstMhz: null },
    });
  }
});

it('reads anew what an older program kept in another form', async () => {
  const folder = filledFolder();
  const { stations, archive } = opened(folder);
  const all = (await stations.list({}, signal)).stations;
  archive.close();
  lookInto(folder, (db) => {
    db.prepare("UPDATE station_face SET judged_by = 'older', face = json_set(face, '$.row.sort', 7)").run();
  });
  const { stations: rows, waiting = [] } = await opened(folder).stations.list({ atOnce: true }, signal);
  expect(waiting).toHaveLength(STATIONS - 1 - AT_ONCE);
  expect(rows.map(({ name, sweepCount }) => ({ name, sweepCount }))).toEqual(
    all.map(({ name, sweepCount }) => ({ name, sweepCount })),
  );
});
