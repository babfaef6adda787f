import { timeLeftMs } from '../../../core/meters/time-left.ts';
import { tuningOrder } from '../../../core/meters/tuning-order.ts';
import { ENDED_BY_RECOVERY } from '../archive/open.ts';
import type { ReadingRow, SweepEnd } from '../archive/sweeps.ts';
import { type Meter, MeterFault } from '../meters/meter-shop.ts';
import { createTapeRecorder, type TapePortion } from '../meters/tape.ts';
import { readingOf, readingRowOf, type Unended } from './as-records.ts';
import { createGate, type Gate } from './gate.ts';
import { createRecorder } from './recorder.ts';
import type { ServiceParts } from './service-parts.ts';

export type Run = Readonly<{
  sweepId: string;
  /** The sweep's number in the archive. */
  seq: number;
  stationId: string;
  visitId: string;
  /** In any order; they are read in the one that settles quickest. */
  frequenciesMhz: readonly number[];
  /** So many readings make one. */
  repeats: number;
}>;

export type Runs = Readonly<{
  /** Reads and records until the plan is walked, somebody stops it or the meter fails. `sweep.ended` always follows. */
  start(meter: Meter, run: Run): void;
  /** Asks the run to end as partial, for this reason, and waits until it has. False when it isn't running. */
  stop(sweepId: string, reason: string): Promise<boolean>;
  /** Rests before its next reading, or goes on. False when it isn't running. */
  pause(sweepId: string, paused: boolean): boolean;
  running(): Run | null;
  runningIn(visitId: string): boolean;
  runningAt(stationId: string): boolean;
  /** How a sweep stands that has no end in the archive. */
  unended(sweepId: string): Unended;
  /** Sweeps with readings that the disk refused: they are in memory until it takes them. */
  held(): readonly HeldSweep[];
  /** Called when one more is held, or one less. */
  whenHeld(listener: () => void): void;
  /** Tries once more to keep what a full disk refused. */
  settleHeld(): void;
  close(): Promise<void>;
}>;

export type HeldSweep = Readonly<{
  sweepId: string;
  stationId: string;
  /** What is on disk, and what is in memory only, after it. */
  onDisk: number;
  rows: readonly ReadingRow[];
  why: string;
}>;

export const STOPPED_BY_HAND = 'stopped by hand';
const CLOSED = 'the program was closed in the middle of this sweep; everything it had read is here';

/** What is left to keep of a run that is over. */
type Tail = Readonly<{
  run: Run;
  rows: readonly ReadingRow[];
  place: number;
  end: Omit<SweepEnd, 'readingCount'>;
  /** What went over the wire since the readings before; null where nothing did. */
  bytes: TapePortion | null;
}>;
/** A tail that the disk refused; nobody was told of its readings. */
type Held = Readonly<{ tail: Tail; why: string }>;
type Live = Readonly<{ run: Run; controller: AbortController; ended: Promise<void>; gate: Gate }>;

const wordsOf = (fault: unknown): string => {
  if (fault instanceof MeterFault) return `${fault.where}: ${fault.help}`;
  return fault instanceof Error ? fault.message : String(fault);
};

/** The running sweep: one at a time, because there is one meter. It belongs to the archive, not to a client. */
export function createRuns({ archive, emit, now, log }: ServiceParts): Runs {
  let live: Live | null = null;
  const held = new Map<string, Held>();
  const listeners: (() => void)[] = [];
  const heldChanged = (): void => {
    for (const listener of listeners) listener();
  };

  /** Readings and the bytes that they were made of: both or neither. */
  const addReadings = (
    run: Run,
    rows: readonly ReadingRow[],
    place: number,
    bytes: TapePortion | null,
  ): void => {
    rows.forEach((row, i) => {
      archive.sweeps.addReading(run.seq, place + i, row);
    });
    if (bytes !== null) archive.meterLinks.addPortion(run.seq, bytes.place, bytes.body);
  };
  const keepTail = ({ run, rows, place, end, bytes }: Tail): void =>
    archive.keep(() => {
      addReadings(run, rows, place, bytes);
      archive.sweeps.end(run.seq, { ...end, readingCount: place + rows.length });
    });
  const tell = (run: Run, row: ReadingRow, index: number, leftMs: number | null): void =>
    emit('sweep.reading', {
      sweepId: run.sweepId,
      index,
      plannedCount: run.frequenciesMhz.length,
      reading: readingOf(row),
      ...(leftMs === null ? {} : { leftMs: Math.round(leftMs) }),
    });

  /** Writes the end with whatever still waits, and tells of it in any case. */
  const finish = (
    run: Run,
    rows: readonly ReadingRow[],
    place: number,
    why: string,
    bytes: TapePortion | null,
  ): void => {
    const everything = place + rows.length === run.frequenciesMhz.length;
    const end = {
      state: everything ? 'complete' : 'partial',
      reason: everything ? null : why,
      recovered: false,
      endedAtMs: now().getTime(),
    } as const;
    let readingCount = place;
    let told: Pick<SweepEnd, 'state' | 'reason'> = end;
    try {
      keepTail({ run, rows, place, end, bytes });
      rows.forEach((row, i) => {
        tell(run, row, place + i, null);
      });
      readingCount += rows.length;
    } catch (fault) {
      log.error({ sweepId: run.sweepId, fault: wordsOf(fault) }, 'the end of a sweep could not be kept');
      told = { state: 'partial', reason: wordsOf(fault) };
      held.set(run.sweepId, { tail: { run, rows, place, end, bytes }, why: wordsOf(fault) });
    }
    live = null;
    const { state, reason } = told;
    log.info({ sweepId: run.sweepId, state, reason, readingCount }, 'sweep ended');
    emit('sweep.ended', { sweepId: run.sweepId, stationId: run.stationId, state, readingCount, reason });
    if (held.has(run.sweepId)) heldChanged();
  };

  const walk = async (meter: Meter, run: Run, controller: AbortController, gate: Gate): Promise<void> => {
    const { signal } = controller;
    const plannedCount = run.frequenciesMhz.length;
    let taken = 0;
    let trouble = null as string | null;
    const readAtMs: number[] = [];
    const manner = { repeats: run.repeats, recheck: true };
    const { frequenciesMhz } = run;
    const about = { frequenciesMhz: [...frequenciesMhz], manner, startedAt: now().toISOString() };
    const tape = createTapeRecorder(about, () => performance.now());
    const recorder = createRecorder<ReadingRow>({
      keep: (rows, place) => {
        archive.keep(() => addReadings(run, rows, place, tape.portion()));
        tape.kept();
      },
      kept: (row, place) => tell(run, row, place, timeLeftMs(readAtMs, plannedCount)),
      failed: (fault) => {
        log.error({ sweepId: run.sweepId, fault: wordsOf(fault) }, 'a reading could not be kept');
        trouble = wordsOf(fault);
        controller.abort();
      },
    });
    try {
      for await (const reading of meter.readLevels(frequenciesMhz, signal, { manner, tape })) {
        readAtMs.push(performance.now());
        recorder.take(readingRowOf(reading));
        taken += 1;
        if (taken === plannedCount || signal.aborted) break;
        await gate.open(signal);
      }
    } catch (fault) {
      if (!(fault instanceof MeterFault))
        log.error({ sweepId: run.sweepId, fault: wordsOf(fault) }, 'reading broke off');
      if (!signal.aborted) trouble = wordsOf(fault);
    }
    recorder.flush();
    const asked: unknown = signal.aborted ? signal.reason : null;
    const short = `the meter stopped after ${taken} of ${plannedCount} readings; read the sweep again`;
    finish(
      run,
      recorder.waiting(),
      recorder.keptCount(),
      trouble ?? (typeof asked === 'string' ? asked : short),
      tape.portion(),
    );
  };

  const settleHeld = (): void => {
    for (const [sweepId, { tail }] of held) {
      keepTail(tail);
      held.delete(sweepId);
      log.info({ sweepId }, 'a sweep that a full disk had refused is kept');
      heldChanged();
    }
  };

  return {
    start(meter, run) {
      if (live !== null) throw new Error('a sweep is running already');
      const ordered = { ...run, frequenciesMhz: tuningOrder(run.frequenciesMhz) };
      const controller = new AbortController();
      const gate = createGate();
      // The first reading waits for the next turn, so that whoever started the sweep knows its id before it.
      const ended = new Promise<void>((resolve) => setImmediate(resolve))
        .then(() => walk(meter, ordered, controller, gate))
        .catch((fault: unknown) => {
          log.error({ sweepId: run.sweepId, fault: wordsOf(fault) }, 'a sweep broke off');
          if (live?.run === ordered)
            finish(ordered, [], archive.sweeps.byId(run.sweepId)?.readingCount ?? 0, wordsOf(fault), null);
        });
      live = { run: ordered, controller, ended, gate };
    },
    async stop(sweepId, reason) {
      if (live?.run.sweepId !== sweepId) return false;
      const { controller, ended } = live;
      controller.abort(reason);
      await ended;
      return true;
    },
    pause(sweepId, paused) {
      if (live?.run.sweepId !== sweepId) return false;
      live.gate.set(paused);
      return true;
    },
    running: () => live?.run ?? null,
    runningIn: (visitId) => live?.run.visitId === visitId,
    runningAt: (stationId) => live?.run.stationId === stationId,
    unended(sweepId) {
      if (live?.run.sweepId === sweepId) return { state: 'recording', reason: null, endedAtMs: null };
      const kept = held.get(sweepId);
      return {
        state: 'partial',
        reason: kept?.why ?? ENDED_BY_RECOVERY,
        endedAtMs: kept?.tail.end.endedAtMs ?? null,
      };
    },
    held: () =>
      [...held.values()].map(({ tail: { run, rows, place }, why }) => ({
        sweepId: run.sweepId,
        stationId: run.stationId,
        onDisk: place,
        rows,
        why,
      })),
    whenHeld(listener) {
      listeners.push(listener);
    },
    settleHeld,
    async close() {
      if (live !== null) {
        live.controller.abort(CLOSED);
        await live.ended;
      }
      try {
        settleHeld();
      } catch (fault) {
        log.error(
          { fault: wordsOf(fault) },
          'the end of a sweep could not be kept; it is written at the next start',
        );
      }
    },
  };
}
