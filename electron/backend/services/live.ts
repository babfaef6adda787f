import type { Input, Output } from '../../../core/bridge/contract.ts';
import { LIVE_PAGE, type LiveRun } from '../../../core/bridge/live-calls.ts';
import type { LiveRow } from '../archive/live.ts';
import {
  fromThousandths,
  hzOf,
  maybe,
  mhzOf,
  momentOf,
  orderedJson,
  thousandthsOf,
} from '../archive/quantities.ts';
import { type Meter, MeterFault } from '../meters/meter-shop.ts';
import { readingRowOf } from './as-records.ts';
import { type Designs, portOf } from './designs.ts';
import { refuseOnFullDisk } from './disk-room.ts';
import type { Meters } from './meters.ts';
import { probeNow } from './probe-at.ts';
import { createRecorder } from './recorder.ts';
import type { Runs } from './runs.ts';
import { refused, type ServiceParts } from './service-parts.ts';
import type { Visits } from './visits.ts';

export type Live = Readonly<{
  start(input: Input<'live.start'>): LiveRun;
  /** @throws Refused when there is no such run */
  stop(input: Input<'live.stop'>): Promise<void>;
  current(): LiveRun | null;
  open(input: Input<'live.open'>): Output<'live.open'>;
  /** @throws Refused while one runs */
  refuseWhileRunning(): void;
  /** Ends the one that runs, for this reason. */
  interrupt(reason: string): Promise<void>;
  /** Ends one of this visit, because the visit is over. */
  stopIn(visitId: string): Promise<void>;
  /** Puts the probe where the station is now, after a part or a control was changed. */
  probeAgain(stationId: string): void;
  close(): Promise<void>;
}>;

const BY_HAND = Symbol('stopped by hand');
const VISIT_ENDED = 'the visit was ended';
const CLOSED = 'the program was closed in the middle of this live reading; everything it had read is here';
const NOBODY = 'no page was there for a minute';

/** How long a live reading goes on when no page listens, and how often that is looked at. */
const WITHOUT_PAGE_MS = 60_000;
const LOOK_MS = 1000;

/** One reading on its way to the disk. */
type Taken = Readonly<{ elapsedMs: number; meterMdbmv: number | null; takenAtMs: number }>;
type Running = Readonly<{
  run: LiveRun;
  seq: number;
  meter: Meter;
  ambientMc: number | null;
  controller: AbortController;
  ended: Promise<void>;
}>;

const wordsOf = (fault: unknown): string => {
  if (fault instanceof MeterFault) return `${fault.where}: ${fault.help}`;
  return fault instanceof Error ? fault.message : String(fault);
};

const runOf = (row: LiveRow): LiveRun => ({
  liveId: row.liveId,
  stationId: row.stationId,
  visitId: row.visitId,
  portName: row.portName,
  frequencyMhz: mhzOf(row.frequencyHz),
  testPointLossDb: fromThousandths(row.testPointLossMdb),
  startedAt: momentOf(row.startedAtMs),
});

/** The one level that is watched live. Like a sweep it belongs to the archive; unlike one it needs somebody to look. */
export function createLive(
  parts: ServiceParts,
  designs: Designs,
  visits: Visits,
  meters: Pick<Meters, 'current' | 'inUse'>,
  runs: Pick<Runs, 'running'>,
  clients: () => number,
  withoutPageMs = WITHOUT_PAGE_MS,
): Live {
  const { archive, emit, now, newId, log } = parts;
  let live: Running | null = null;

  const known = (liveId: string): LiveRow => {
    const row = archive.lives.byId(liveId);
    if (row === undefined)
      throw refused('no-such-live', `live reading ${liveId}`, 'it is not in this archive');
    return row;
  };
  const refuseWhileRunning = (): void => {
    if (live !== null) throw refused('live-running', 'meter', 'a live reading is running; stop it first');
  };

  /** Stops it when nobody has listened for a while: a meter must not run its battery down for an empty room. */
  const watchOver = (controller: AbortController): (() => void) => {
    let aloneSinceMs: number | null = null;
    const timer = setInterval(
      () => {
        if (clients() > 0) aloneSinceMs = null;
        else aloneSinceMs ??= performance.now();
        if (aloneSinceMs !== null && performance.now() - aloneSinceMs >= withoutPageMs)
          controller.abort(NOBODY);
      },
      Math.min(LOOK_MS, withoutPageMs / 4),
    );
    return () => clearInterval(timer);
  };

  const finish = (run: LiveRun, seq: number, readingCount: number, reason: string | null): void => {
    let told = reason;
    try {
      archive.keep(() =>
        archive.lives.end(seq, { reason, recovered: false, readingCount, endedAtMs: now().getTime() }),
      );
    } catch (fault) {
      // The next opening writes the end; what was told of is on disk already.
      log.error({ liveId: run.liveId, fault: wordsOf(fault) }, 'the end of a live reading could not be kept');
      told ??= wordsOf(fault);
    }
    live = null;
    log.info({ liveId: run.liveId, readingCount, reason: told }, 'live reading ended');
    emit('live.ended', { liveId: run.liveId, readingCount, reason: told });
  };

  const listen = async (run: LiveRun, seq: number, meter: Meter, controller: AbortController) => {
    const { liveId, testPointLossDb } = run;
    const { signal } = controller;
    const beganMs = performance.now();
    let trouble: string | null = null;
    const recorder = createRecorder<Taken>({
      keep: (items, place) =>
        archive.keep(() => {
          items.forEach((item, i) => {
            archive.lives.addReading(seq, { ...item, place: place + i });
          });
        }),
      kept: ({ elapsedMs, meterMdbmv, takenAtMs }, place) =>
        emit('live.reading', {
          liveId,
          seq: place,
          elapsedMs,
          takenAt: momentOf(takenAtMs),
          meterDbmv: maybe(meterMdbmv, fromThousandths),
          testPointLossDb,
        }),
      failed: (fault) => {
        log.error({ liveId, fault: wordsOf(fault) }, 'a live reading could not be kept');
        trouble = wordsOf(fault);
        controller.abort();
      },
    });
    const leave = watchOver(controller);
    try {
      for await (const reading of meter.watchLevel(run.frequencyMhz, signal)) {
        const { meterMdbmv, takenAtMs } = readingRowOf(reading);
        recorder.take({ elapsedMs: Math.round(performance.now() - beganMs), meterMdbmv, takenAtMs });
        if (signal.aborted) break;
      }
    } catch (fault) {
      if (!(fault instanceof MeterFault))
        log.error({ liveId, fault: wordsOf(fault) }, 'a live reading broke off');
      if (!signal.aborted) trouble = wordsOf(fault);
    } finally {
      leave();
    }
    recorder.flush();
    const asked: unknown = signal.aborted ? signal.reason : 'the meter stopped; start the live reading again';
    const reason = trouble ?? (asked === BY_HAND ? null : String(asked));
    finish(run, seq, recorder.keptCount(), reason);
  };

  const end = async (reason: unknown): Promise<void> => {
    const running = live;
    running?.controller.abort(reason);
    await running?.ended;
  };

  return {
    refuseWhileRunning,
    start({ stationId, visitId, portName, frequencyMhz }) {
      const design = designs.newest(stationId);
      const port = portOf(design.station, portName);
      const visit = visitId === null ? null : visits.openVisit(visitId);
      if (visit !== null && visit.stationId !== stationId)
        throw refused('other-station', `visit ${visitId}`, 'it is a visit of another station');
      const meter = meters.inUse();
      refuseWhileRunning();
      if (runs.running() !== null)
        throw refused('sweep-running', 'meter', 'a sweep is running; let it end or stop it first');
      refuseOnFullDisk(archive);
      const ambientMc = visit?.ambientMc ?? null;
      const probe = probeNow(archive, design, portName, ambientMc);
      meter.moveProbe(probe);
      const liveId = newId();
      const seq = archive.write(() =>
        archive.lives.add({
          liveId,
          stationId,
          revision: design.revision,
          visit: visit?.seq ?? null,
          portName,
          frequencyHz: hzOf(frequencyMhz),
          testPointLossMdb: thousandthsOf(port.testPointLossDb),
          profile: meter.profileName,
          meter: orderedJson(meters.current()?.identity ?? meter.identity),
          ambientMc,
          pluggedIn: orderedJson(probe.pluggedIn),
          startedAtMs: now().getTime(),
        }),
      );
      const run = runOf(known(liveId));
      const controller = new AbortController();
      // The first reading waits for the next turn, so that whoever started it knows its id before it.
      const ended = new Promise<void>((resolve) => setImmediate(resolve))
        .then(() => listen(run, seq, meter, controller))
        .catch((fault: unknown) => {
          log.error({ liveId, fault: wordsOf(fault) }, 'a live reading broke off');
          if (live?.run === run) finish(run, seq, known(liveId).readingCount, wordsOf(fault));
        });
      live = { run, seq, meter, ambientMc, controller, ended };
      log.info({ liveId, stationId, portName, frequencyMhz }, 'live reading begun');
      return run;
    },
    async stop({ liveId }) {
      if (live?.run.liveId === liveId) await end(BY_HAND);
      else known(liveId);
    },
    current: () => live?.run ?? null,
    open({ liveId, fromSeq }) {
      const row = known(liveId);
      return {
        run: runOf(row),
        running: live?.run.liveId === liveId,
        endReason: row.reason,
        readingCount: row.readingCount,
        readings: archive.lives
          .readings(row.seq, fromSeq, LIVE_PAGE)
          .map(({ place, elapsedMs, meterMdbmv, takenAtMs }) => ({
            seq: place,
            elapsedMs,
            takenAt: momentOf(takenAtMs),
            meterDbmv: maybe(meterMdbmv, fromThousandths),
          })),
      };
    },
    interrupt: end,
    async stopIn(visitId) {
      if (live?.run.visitId === visitId) await end(VISIT_ENDED);
    },
    probeAgain(stationId) {
      if (live?.run.stationId !== stationId) return;
      const { meter, run, ambientMc } = live;
      meter.moveProbe(probeNow(archive, designs.newest(stationId), run.portName, ambientMc));
    },
    close: () => end(CLOSED),
  };
}
