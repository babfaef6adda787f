import type { Input, Output } from '../../../core/bridge/contract.ts';
import { MeterChoice, MeterIdentity } from '../../../core/bridge/records.ts';
import type { WatchSummary } from '../../../core/bridge/watch-calls.ts';
import {
  fromThousandths,
  hzOf,
  maybe,
  mhzOf,
  momentOf,
  orderedJson,
  thousandthsOf,
} from '../archive/quantities.ts';
import type { WatchRow } from '../archive/watches.ts';
import { type Designs, portOf } from './designs.ts';
import { refuseOnFullDisk } from './disk-room.ts';
import type { Meters } from './meters.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { Visits } from './visits.ts';
import { createWatchRunner, frequenciesOf, type WatchPace } from './watch-runner.ts';

export type Watches = Readonly<{
  start(input: Input<'watch.start'>): WatchSummary;
  stop(input: Input<'watch.stop'>): Promise<WatchSummary>;
  temperature(input: Input<'watch.temperature'>): void;
  current(): WatchSummary | null;
  open(input: Input<'watch.open'>): Output<'watch.open'>;
  list(input: Input<'watch.list'>): Output<'watch.list'>;
  /** Settles when no round is being read; then the meter is free until the next turn of the event loop at least. */
  roundOver(): Promise<void>;
  /** @throws Refused while a watch runs: it needs its meter */
  refuseWhileRunning(): void;
  /** Goes on with what an earlier run of the program left, or says that it was cut short. */
  resume(): void;
  /** Leaves a running watch as it is, so that the next start goes on with it. */
  close(): Promise<void>;
}>;

/** Watches that need nobody: for hours and days, to the archive as they go. */
export function createWatches(
  parts: ServiceParts,
  designs: Designs,
  visits: Visits,
  meters: Pick<Meters, 'current' | 'inUse' | 'connect'>,
  meterTakenBy: () => string | null,
  pace?: WatchPace,
): Watches {
  const { archive, emit, now, newId } = parts;

  const known = (watchId: string): WatchRow => {
    const row = archive.watches.byId(watchId);
    if (row === undefined) throw refused('no-such-watch', `watch ${watchId}`, 'it is not in this archive');
    return row;
  };
  const summaryOf = (row: WatchRow): WatchSummary => {
    const meter = archive.watches.meter(row.seq);
    if (meter === undefined) throw new Error(`watch ${row.watchId} has no meter`);
    return {
      watchId: row.watchId,
      stationId: row.stationId,
      visitId: row.visitId,
      portName: row.portName,
      testPointLossDb: fromThousandths(row.testPointLossMdb),
      frequenciesMhz: [...frequenciesOf(row)],
      pilotMhz: maybe(row.pilotHz, mhzOf),
      everyS: row.everyMs / 1000,
      forS: row.forMs === null ? null : row.forMs / 1000,
      startedAt: momentOf(row.startedAtMs),
      state: row.state ?? 'running',
      endedAt: maybe(row.endedAtMs, momentOf),
      endReason: row.reason,
      roundCount: row.nextRound,
      missedCount: row.missedCount,
      meter: {
        choice: MeterChoice.parse(JSON.parse(meter.choice)),
        identity: MeterIdentity.parse(JSON.parse(meter.meter)),
      },
    };
  };
  const runner = createWatchRunner(
    parts,
    designs,
    meters,
    meterTakenBy,
    (watchId) => emit('watch.ended', { watch: summaryOf(known(watchId)) }),
    pace,
  );
  const refuseWhileRunning = (): void => {
    if (runner.running() !== null)
      throw refused('watch-running', 'meter', 'an unattended watch needs this meter; stop the watch first');
  };

  return {
    refuseWhileRunning,
    start({ stationId, visitId, portName, frequenciesMhz, pilotMhz, everyS, forS, ambientC }) {
      const design = designs.newest(stationId);
      const port = portOf(design.station, portName);
      const visit = visitId === null ? null : visits.openVisit(visitId);
      if (visit !== null && visit.stationId !== stationId)
        throw refused('other-station', `visit ${visitId}`, 'it is a visit of another station');
      if (new Set(frequenciesMhz.map(hzOf)).size !== frequenciesMhz.length)
        throw refused('twice', 'frequencies', 'one is named twice; name each once');
      if (pilotMhz !== null && !frequenciesMhz.includes(pilotMhz))
        throw refused(
          'pilot-not-watched',
          `${pilotMhz} MHz`,
          'put the pilot among the frequencies that are watched',
        );
      if (archive.watches.running() !== undefined)
        throw refused('watch-running', 'watch', 'a watch is running; stop it first');
      const meter = meters.inUse();
      refuseOnFullDisk(archive);
      const watchId = newId();
      const startedAtMs = now().getTime();
      const ambientMc = ambientC === null ? (visit?.ambientMc ?? null) : thousandthsOf(ambientC);
      archive.write(() => {
        const seq = archive.watches.add({
          watchId,
          stationId,
          revision: design.revision,
          visit: visit?.seq ?? null,
          portName,
          testPointLossMdb: thousandthsOf(port.testPointLossDb),
          frequencies: JSON.stringify(frequenciesMhz.map(hzOf)),
          pilotHz: maybe(pilotMhz, hzOf),
          everyMs: Math.round(everyS * 1000),
          forMs: maybe(forS, (seconds) => Math.round(seconds * 1000)),
          startedAtMs,
        });
        archive.watches.addMeter(seq, {
          fromRound: 0,
          choice: orderedJson(meter.choice),
          meter: orderedJson(meters.current()?.identity ?? meter.identity),
          profile: meter.profileName,
          connectedAtMs: startedAtMs,
        });
        if (ambientMc !== null) archive.watches.addTemperature(seq, { ambientMc, notedAtMs: startedAtMs });
      });
      runner.run(known(watchId));
      return summaryOf(known(watchId));
    },
    async stop({ watchId }) {
      if (runner.running() === watchId) await runner.stop();
      return summaryOf(known(watchId));
    },
    temperature({ watchId, ambientC }) {
      const row = known(watchId);
      if (row.state !== null)
        throw refused(
          'watch-ended',
          `watch ${watchId}`,
          'this watch is over; a temperature belongs to a running one',
        );
      archive.write(() =>
        archive.watches.addTemperature(row.seq, {
          ambientMc: thousandthsOf(ambientC),
          notedAtMs: now().getTime(),
        }),
      );
    },
    current() {
      const row = archive.watches.running();
      return row === undefined ? null : summaryOf(row);
    },
    open({ watchId }) {
      const row = known(watchId);
      const frequenciesMhz = frequenciesOf(row);
      const levels = Map.groupBy(archive.watches.levels(row.seq), ({ round }) => round);
      return {
        watch: summaryOf(row),
        rounds: archive.watches.rounds(row.seq).map(({ round, rounds, gap, takenAtMs }) => ({
          round,
          rounds,
          at: momentOf(takenAtMs),
          gap,
          levels: (levels.get(round) ?? []).map(({ place, meterMdbmv }) => ({
            frequencyMhz: frequenciesMhz[place] ?? Number.NaN,
            meterDbmv: maybe(meterMdbmv, fromThousandths),
          })),
        })),
        temperatures: archive.watches.temperatures(row.seq).map(({ ambientMc, notedAtMs }) => ({
          at: momentOf(notedAtMs),
          ambientC: fromThousandths(ambientMc),
        })),
      };
    },
    list: ({ stationId }) => ({ watches: archive.watches.ofStation(stationId).map(summaryOf) }),
    roundOver: () => runner.roundOver(),
    resume() {
      const row = archive.watches.running();
      if (row !== undefined) runner.resume(row);
    },
    close: () => runner.close(),
  };
}
