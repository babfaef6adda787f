import type { Input, Output } from '../../../core/bridge/contract.ts';
import type {
  HistorySweep,
  QualityStation,
  QualityTrend,
  StationHistory,
} from '../../../core/bridge/quality-calls.ts';
import { driftWords } from '../../../core/drift/drift-words.ts';
import type { SweepFigures } from '../../../core/drift/figures.ts';
import { type StationDrift, stationDrift } from '../../../core/drift/station-drift.ts';
import { setUpResult } from '../../../core/set-up/result.ts';
import { setUpState } from '../../../core/set-up/state.ts';
import type { Archive } from '../archive/open.ts';
import type { QualitySweepRow } from '../archive/quality-queries.ts';
import { fromThousandths, maybe, momentOf } from '../archive/quantities.ts';
import { type Design, type Designs, portOf } from './designs.ts';
import { lookAtFaces } from './faces.ts';
import { inPortions } from './portions.ts';
import { createFigureBook, type Look, pluggedInOf, sweepFigures } from './quality-figures.ts';
import { createPeriods, type Periods } from './quality-period.ts';
import { refused } from './service-parts.ts';
import type { SetUps } from './set-up.ts';
import type { SettingsService } from './settings.ts';
import { createStandings } from './standing.ts';

/** So many stations are looked at in one go while nobody waits for them. */
const AHEAD = 20;
/** The small line of a table shows so many of the newest sweeps. */
const LINE_POINTS = 16;

export type Quality = Periods &
  Readonly<{
    stations(input: Input<'quality.stations'>, signal: AbortSignal): Promise<Output<'quality.stations'>>;
    trends(input: Input<'quality.trends'>, signal: AbortSignal): Promise<Output<'quality.trends'>>;
    history(input: Input<'quality.history'>): Output<'quality.history'>;
    /** Whether somebody waits for an answer about many stations. */
    isBusy(): boolean;
    /**
     * Works out and keeps what the table shows of the next stations of which something is missing.
     * @param after  0, or what the call before answered
     * @returns  null when none was left
     */
    ahead(after: number, signal: AbortSignal): Promise<number | null>;
  }>;

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
  const standings = createStandings(archive, designs, settings);

  /** What the set-ups that measured it left, the newest first, and what was asked for on each day. */
  const reservesOf = (stationId: string): StationHistory['reserves'] =>
    setUps.list({ stationId }).setUps.flatMap(({ visitId, startedAt, plan, events, abandoned }) => {
      if (abandoned !== null) return [];
      const { reserveLeftDb, reserveAskedThenDb } = setUpResult(plan, setUpState(plan.kind, events));
      return reserveLeftDb === null
        ? []
        : [{ visitId, at: startedAt, leftDb: reserveLeftDb, askedDb: reserveAskedThenDb }];
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

  const stationsOf: Quality['stations'] = async ({ after, limit }, signal) => {
    const faces = lookAtFaces(archive, standings, signal);
    const rows = archive.stations.page(after, limit);
    const withSetUp = archive.quality.setUpStations();
    const stations: QualityStation[] = [];
    for (const face of await faces.all(rows)) {
      const { stationId, name, sweepCount, openVisit, standing, outOfService } = face.row;
      const reserve = withSetUp.has(stationId) ? reservesOf(stationId)[0] : undefined;
      stations.push({
        stationId,
        name,
        sweepCount,
        openVisit,
        lastVisitAt: maybe(face.lastVisitMs, momentOf),
        standing,
        reserve: reserve === undefined ? null : { leftDb: reserve.leftDb, askedDb: reserve.askedDb },
        ...(outOfService === undefined ? {} : { outOfService }),
      });
    }
    const last = rows.at(-1);
    return {
      stations,
      total: archive.stations.count(),
      next: last === undefined || rows.length < limit ? null : last.seq,
    };
  };

  const trendsOf: Quality['trends'] = async ({ stationIds }, signal) => {
    const look = book.at();
    const judgedBy = book.basis();
    const { worked, rest, keep } = inPortions<QualityTrend>(archive, {
      keepOne: (trend) => archive.stations.keepTrend(trend.stationId, JSON.stringify(trend), judgedBy),
      too: look,
      signal,
    });
    const found: QualityTrend[] = [];
    for (const stationId of stationIds) {
      const kept = archive.stations.trend(stationId);
      if (kept?.trend != null && kept.trendJudgedBy === judgedBy) {
        // Written here, by this program's own schema.
        found.push(JSON.parse(kept.trend) as QualityTrend);
      } else {
        const trend = trendFor(stationId, look);
        found.push(trend);
        worked(trend);
      }
      await rest();
    }
    keep();
    return { trends: found };
  };

  let waiting = 0;
  const waited = async <T>(work: Promise<T>): Promise<T> => {
    waiting += 1;
    try {
      return await work;
    } finally {
      waiting -= 1;
    }
  };

  return {
    ...createPeriods(archive, book),
    stations: (input, signal) => waited(stationsOf(input, signal)),
    trends: (input, signal) => waited(trendsOf(input, signal)),
    isBusy: () => waiting > 0,
    async ahead(after, signal) {
      const rows = archive.stations.behind(book.basis(), after, AHEAD);
      await lookAtFaces(archive, standings, signal).all(rows);
      const stationIds = rows.map(({ stationId }) => stationId);
      if (stationIds.length > 0) await trendsOf({ stationIds }, signal);
      return rows.at(-1)?.seq ?? null;
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
      const reserves = reservesOf(stationId).toReversed();
      const reserveOf = new Map(reserves.map(({ visitId, leftDb }) => [visitId, leftDb]));
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
              reserveDb: reserveOf.get(row.visitId) ?? null,
            },
          ];
        });
      look.keep();
      return { station: design.station, portName: shown, portNames: [...portNames], sweeps, reserves };
    },
  };
}
