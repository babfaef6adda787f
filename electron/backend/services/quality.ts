import { setImmediate as turn } from 'node:timers/promises';
import type { Input, Output } from '../../../core/bridge/contract.ts';
import type { HistorySweep, QualityStation, QualityTrend } from '../../../core/bridge/quality-calls.ts';
import { driftWords } from '../../../core/drift/drift-words.ts';
import type { SweepFigures } from '../../../core/drift/figures.ts';
import { type StationDrift, stationDrift } from '../../../core/drift/station-drift.ts';
import { setUpResult } from '../../../core/set-up/result.ts';
import { setUpState } from '../../../core/set-up/state.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { fromThousandths, maybe, momentOf } from '../archive/quantities.ts';
import { type Design, type Designs, portOf } from './designs.ts';
import { createFigureBook, type Look, pluggedInOf, sweepFigures } from './quality-figures.ts';
import { createPeriods, type Periods } from './quality-period.ts';
import { refused } from './service-parts.ts';
import type { SetUps } from './set-up.ts';
import type { SettingsService } from './settings.ts';
import { standingOf } from './standing.ts';

const PORTION_MS = 10;
/** The small line of a table shows so many of the newest sweeps. */
const LINE_POINTS = 16;

export type Quality = Periods &
  Readonly<{
    stations(input: Input<'quality.stations'>, signal: AbortSignal): Promise<Output<'quality.stations'>>;
    trends(input: Input<'quality.trends'>, signal: AbortSignal): Promise<Output<'quality.trends'>>;
    history(input: Input<'quality.history'>): Output<'quality.history'>;
  }>;

/** Gives way after every few milliseconds of work, so that a sweep that is being recorded does not wait; stops when asked to. */
function portions(signal: AbortSignal, look: Look) {
  let since = performance.now();
  return async (): Promise<void> => {
    if (performance.now() - since < PORTION_MS) return;
    look.keepSlice();
    await turn();
    signal.throwIfAborted();
    since = performance.now();
  };
}

/** The port with the most sweeps; of equals the one that the station file names first. */
const mostSwept = (rows: readonly QualitySweepRow[], portNames: readonly string[]): string | null => {
  const counts = new Map<string, number>();
  for (const { portName } of rows) counts.set(portName, (counts.get(portName) ?? 0) + 1);
  return portNames.reduce<string | null>(
    (most, name) => (most === null || (counts.get(name) ?? 0) > (counts.get(most) ?? 0) ? name : most),
    null,
  );
};

/** Ports with a design that were swept, as the station file orders them. */
const sweptPorts = (rows: readonly QualitySweepRow[], { station }: Design): readonly string[] => {
  const swept = new Set(rows.map(({ portName }) => portName));
  return station.ports
    .filter(({ name, design }) => design !== undefined && swept.has(name))
    .map(({ name }) => name);
};

function trendOf(drift: StationDrift | null): QualityTrend['drift'] {
  if (drift === null) return null;
  // Below three sweeps no figure says anything; the level is what a technician asks for first.
  const shown = drift.figures.find(({ of }) => of === (drift.says ?? 'level'));
  return {
    state: drift.state,
    words: driftWords(drift),
    perYearDb: drift.says === null ? null : (shown?.trend?.perYearDb ?? null),
    line: (shown?.values ?? []).slice(-LINE_POINTS).map(({ valueDb }) => valueDb),
  };
}

/** All records at once, for whoever looks after many stations: one table, histories, trends, and what a period came to. */
export function createQuality(
  archive: Archive,
  designs: Designs,
  settings: Pick<SettingsService, 'read' | 'readNotes'>,
  setUps: Pick<SetUps, 'list'>,
): Quality {
  const book = createFigureBook(archive, designs, settings);

  /** What the newest set-up that measured its reserve left, and by visit what each left. */
  const reservesOf = (stationId: string) =>
    setUps.list({ stationId }).setUps.flatMap(({ visitId, plan, events, abandoned }) => {
      if (abandoned !== null) return [];
      const { reserveLeftDb, reserveAskedDb } = setUpResult(plan, setUpState(plan.kind, events));
      return reserveLeftDb === null ? [] : [{ visitId, leftDb: reserveLeftDb, askedDb: reserveAskedDb }];
    });

  const drifted = (
    rows: readonly QualitySweepRow[],
    design: Design,
    portName: string,
    look: Look,
  ): StationDrift | null => {
    const points = rows
      .filter((row) => row.portName === portName)
      .flatMap((row): SweepFigures[] => {
        const figures = sweepFigures(row, look.of(row));
        return figures === null ? [] : [figures];
      });
    return stationDrift(design.station, portOf(design.station, portName), points);
  };

  /** The design that the newest sweep was read under: a newer one has no sweep to compare with it yet. */
  const designFor = (stationId: string, rows: readonly QualitySweepRow[]): Design => {
    const newest = rows.at(-1);
    return newest === undefined ? designs.newest(stationId) : designs.at(stationId, newest.revision);
  };

  const trendFor = (stationId: string, look: Look): QualityTrend => {
    const rows = archive.quality.history(stationId);
    const design = designFor(stationId, rows);
    const portName = mostSwept(rows, sweptPorts(rows, design));
    let leftAsDesigned: boolean | null = null;
    for (const row of rows.toReversed()) {
      if (row.purpose !== 'as-left' || row.state === 'partial') continue;
      const found = look.of(row);
      if (!found.ok) continue;
      leftAsDesigned = found.figures.verdict === 'pass';
      if (leftAsDesigned) break;
    }
    return {
      stationId,
      // Swept, but never left: nobody can say that it was left as designed.
      leftAsDesigned: leftAsDesigned ?? (rows.length > 0 ? false : null),
      drift: portName === null ? null : trendOf(drifted(rows, design, portName, look)),
    };
  };

  return {
    ...createPeriods(archive, book),
    async stations({ after, limit }, signal) {
      const look = book.at();
      const givesWay = portions(signal, look);
      const rows = archive.quality.page(after, limit);
      const withSetUp = archive.quality.setUpStations();
      const stations: QualityStation[] = [];
      for (const row of rows) {
        const { stationId, name, sweepCount, lastVisitMs, judged } = row;
        const newest = judged === null ? undefined : archive.quality.sweep(judged);
        const reserve = withSetUp.has(stationId) ? reservesOf(stationId)[0] : undefined;
        stations.push({
          stationId,
          name,
          sweepCount,
          openVisit: row.openVisit === 1,
          lastVisitAt: maybe(lastVisitMs, momentOf),
          standing: newest === undefined ? null : standingOf(newest, look),
          reserve: reserve === undefined ? null : { leftDb: reserve.leftDb, askedDb: reserve.askedDb },
        });
        await givesWay();
      }
      look.keep();
      const last = rows.at(-1);
      return {
        stations,
        total: archive.quality.stationCount(),
        next: last === undefined || rows.length < limit ? null : last.seq,
      };
    },
    async trends({ stationIds }, signal) {
      const look = book.at();
      const givesWay = portions(signal, look);
      const trends: QualityTrend[] = [];
      for (const stationId of stationIds) {
        trends.push(trendFor(stationId, look));
        await givesWay();
      }
      look.keep();
      return { trends };
    },
    history({ stationId, portName }) {
      const rows = archive.quality.history(stationId);
      const design = designFor(stationId, rows);
      const portNames = sweptPorts(rows, design);
      const withDesign = design.station.ports.find((port) => port.design !== undefined)?.name;
      const shown = portName ?? mostSwept(rows, portNames) ?? withDesign;
      if (shown === undefined)
        throw refused(
          'no-design',
          design.station.name,
          'no port of it has a design line to hold a sweep against',
        );
      portOf(design.station, shown);
      const reserves = new Map(reservesOf(stationId).map(({ visitId, leftDb }) => [visitId, leftDb]));
      const look = book.at();
      const sweeps = rows
        .filter((row) => row.portName === shown)
        .flatMap((row): HistorySweep[] => {
          const { purpose } = row;
          if (purpose === 'check') return [];
          const found = look.of(row);
          const figures = found.ok && row.state === 'complete' ? found.figures : null;
          const why =
            row.state === 'partial' ? `cut short: ${row.reason ?? ''}` : found.ok ? null : found.why;
          return [
            {
              sweepId: row.sweepId,
              visitId: row.visitId,
              at: momentOf(row.startedAtMs),
              purpose,
              operator: row.operator,
              ambientC: maybe(row.ambientMc, fromThousandths),
              revision: row.revision,
              pluggedIn: pluggedInOf(row),
              figures,
              why,
              reserveDb: reserves.get(row.visitId) ?? null,
            },
          ];
        });
      look.keep();
      return { station: design.station, portName: shown, portNames: [...portNames], sweeps };
    },
  };
}
