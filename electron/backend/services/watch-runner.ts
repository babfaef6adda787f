import { z } from 'zod';
import { MeterChoice } from '../../../core/bridge/records.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import type { WatchRound } from '../../../core/bridge/watch-calls.ts';
import { lastRoundOf, watchTurn } from '../../../core/watch/schedule.ts';
import { temperatureAt } from '../../../core/watch/temperature-at.ts';
import { fromThousandths, hzOf, maybe, mhzOf, momentOf, orderedJson } from '../archive/quantities.ts';
import type { WatchEndState, WatchRow } from '../archive/watches.ts';
import { type Meter, MeterFault } from '../meters/meter-shop.ts';
import { readingRowOf } from './as-records.ts';
import type { Designs } from './designs.ts';
import type { Meters } from './meters.ts';
import { probeNow } from './probe-at.ts';
import type { ServiceParts } from './service-parts.ts';

/** How soon a round that could not be read is tried again. */
export type WatchPace = Readonly<{ retryMs: number }>;
const usualPace: WatchPace = { retryMs: 5000 };

/** A watch without a planned end that the program forgot for longer is not taken up again. */
const FORGOTTEN_MS = 24 * 3_600_000;

const NOT_RUNNING = 'the program was not running';
const ASLEEP = 'the computer slept or stood still';
const OVER_UNSEEN = 'the program was not running when it was to end';
const FORGOTTEN = 'the program was not running for more than a day';

export type WatchRunner = Readonly<{
  run(row: WatchRow): void;
  resume(row: WatchRow): void;
  /** The id of the one that runs. */
  running(): string | null;
  stop(): Promise<void>;
  roundOver(): Promise<void>;
  close(): Promise<void>;
}>;

type Going = {
  readonly row: WatchRow;
  readonly stopping: AbortController;
  next: number;
  /** Why the next missed rounds were missed. */
  trouble: string;
  timer: NodeJS.Timeout | null;
  round: Promise<void> | null;
};

const Frequencies = z.array(z.number());
export const frequenciesOf = ({ frequencies }: WatchRow): readonly number[] =>
  Frequencies.parse(JSON.parse(frequencies)).map(mhzOf);

const wordsOf = (fault: unknown): string => {
  if (fault instanceof MeterFault) return `${fault.where}: ${fault.help}`;
  if (fault instanceof Refused) return `${fault.refusal.where}: ${fault.refusal.help}`;
  return fault instanceof Error ? fault.message : String(fault);
};

/** Walks the rounds of the one running watch. */
export function createWatchRunner(
  parts: ServiceParts,
  designs: Designs,
  meters: Pick<Meters, 'current' | 'inUse' | 'connect'>,
  meterTakenBy: () => string | null,
  ended: (watchId: string) => void,
  pace: WatchPace = usualPace,
): WatchRunner {
  const { archive, emit, now, log } = parts;
  let going: Going | null = null;

  const tell = (watchId: string, round: WatchRound): void => emit('watch.round', { watchId, round });

  const keepGap = (watch: Going, rounds: number, why: string): void => {
    const { seq, watchId } = watch.row;
    const takenAtMs = now().getTime();
    const round = watch.next;
    archive.keep(() => archive.watches.addRound(seq, { round, rounds, gap: why, takenAtMs }, []));
    watch.next += rounds;
    log.warn({ watchId, round, rounds, why }, 'a watch has a gap');
    tell(watchId, { round, rounds, at: momentOf(takenAtMs), gap: why, levels: [] });
  };
  const finish = (watch: Going, state: WatchEndState, reason: string | null): void => {
    archive.keep(() => archive.watches.end(watch.row.seq, state, reason, now().getTime()));
    if (going === watch) going = null;
    log.info({ watchId: watch.row.watchId, state, reason, rounds: watch.next }, 'watch ended');
    ended(watch.row.watchId);
  };

  /** The meter in use, or the watch's own connected again; noted when it is not the one of the rounds before. */
  const meterFor = async (watch: Going): Promise<Meter> => {
    const { seq } = watch.row;
    const last = archive.watches.meter(seq);
    const inUse = (): Meter | null => {
      try {
        return meters.inUse();
      } catch {
        return null;
      }
    };
    if (inUse() === null && last !== undefined)
      await meters.connect(MeterChoice.parse(JSON.parse(last.choice)), watch.stopping.signal);
    const meter = meters.inUse();
    const row = {
      fromRound: watch.next,
      choice: orderedJson(meter.choice),
      meter: orderedJson(meters.current()?.identity ?? meter.identity),
      profile: meter.profileName,
      connectedAtMs: now().getTime(),
    };
    if (last?.choice !== row.choice || last.meter !== row.meter)
      archive.write(() => archive.watches.addMeter(seq, row));
    return meter;
  };
  const ambientNow = (watch: Going): number | null => {
    const notes = archive.watches
      .temperatures(watch.row.seq)
      .map(({ ambientMc, notedAtMs }) => ({ atMs: notedAtMs, ambientC: fromThousandths(ambientMc) }));
    return temperatureAt(notes, now().getTime());
  };

  /** One whole round on disk and told. @throws what kept it from being read */
  const readRound = async (watch: Going): Promise<void> => {
    const { row, stopping } = watch;
    const taken = meterTakenBy();
    if (taken !== null) throw new Error(taken);
    const meter = await meterFor(watch);
    const probe = probeNow(archive, designs.newest(row.stationId), row.portName, null);
    meter.moveProbe({ ...probe, ambientC: ambientNow(watch) });
    const frequenciesMhz = frequenciesOf(row);
    const found = new Map<number, number | null>();
    for await (const reading of meter.readLevels(frequenciesMhz, stopping.signal)) {
      const { frequencyHz, meterMdbmv: level } = readingRowOf(reading);
      found.set(frequencyHz, level);
    }
    if (stopping.signal.aborted) return;
    if (found.size < frequenciesMhz.length)
      throw new Error(`the meter stopped after ${found.size} of ${frequenciesMhz.length} readings`);
    // A meter may answer in an order of its own.
    const meterMdbmv = frequenciesMhz.map((frequencyMhz) => found.get(hzOf(frequencyMhz)) ?? null);
    const takenAtMs = now().getTime();
    const round = watch.next;
    archive.keep(() =>
      archive.watches.addRound(row.seq, { round, rounds: 1, gap: null, takenAtMs }, meterMdbmv),
    );
    watch.next += 1;
    watch.trouble = ASLEEP;
    tell(row.watchId, {
      round,
      rounds: 1,
      at: momentOf(takenAtMs),
      gap: null,
      levels: frequenciesMhz.map((frequencyMhz, i) => ({
        frequencyMhz,
        meterDbmv: maybe(meterMdbmv[i] ?? null, fromThousandths),
      })),
    });
  };

  const step = async (watch: Going): Promise<void> => {
    const { row } = watch;
    const nowMs = now().getTime();
    const turn = watchTurn(row, watch.next, nowMs);
    if (turn.missed > 0) keepGap(watch, turn.missed, watch.trouble);
    if (turn.round === null) {
      const unseen = turn.missed > 0 && watch.trouble === NOT_RUNNING;
      finish(watch, unseen ? 'cut-short' : 'complete', unseen ? OVER_UNSEEN : null);
      return;
    }
    if (turn.waitMs > 0) return;
    try {
      await readRound(watch);
    } catch (fault) {
      // Tried again until the next round is due; then this one is a gap, for this reason.
      watch.trouble = wordsOf(fault);
      log.warn({ watchId: row.watchId, round: watch.next, why: watch.trouble }, 'a round could not be read');
    }
  };

  const waitMs = (watch: Going): number => {
    const last = lastRoundOf(watch.row);
    if (last !== null && watch.next > last) return 0;
    const turn = watchTurn(watch.row, watch.next, now().getTime());
    // A round that is due and unread was tried just now.
    return turn.missed === 0 && turn.waitMs === 0
      ? Math.min(pace.retryMs, watch.row.everyMs / 4)
      : turn.waitMs;
  };
  const goOn = (watch: Going, afterMs: number): void => {
    if (going !== watch || watch.stopping.signal.aborted) return;
    watch.timer = setTimeout(() => {
      watch.timer = null;
      watch.round = step(watch)
        .catch((fault: unknown) => {
          // The archive takes no more for now: what it lacks becomes a gap as soon as it does.
          watch.trouble = wordsOf(fault);
          log.error({ watchId: watch.row.watchId, fault: watch.trouble }, 'a round could not be kept');
        })
        .finally(() => {
          watch.round = null;
          goOn(watch, Math.max(waitMs(watch), 0));
        });
    }, afterMs);
  };
  const begin = (row: WatchRow, trouble: string): Going => {
    const watch: Going = {
      row,
      stopping: new AbortController(),
      next: row.nextRound,
      trouble,
      timer: null,
      round: null,
    };
    going = watch;
    return watch;
  };
  const halt = async (watch: Going): Promise<void> => {
    watch.stopping.abort();
    if (watch.timer !== null) clearTimeout(watch.timer);
    await watch.round;
  };

  return {
    running: () => going?.row.watchId ?? null,
    run: (row) => goOn(begin(row, ASLEEP), 0),
    resume(row) {
      const watch = begin(row, NOT_RUNNING);
      log.info({ watchId: row.watchId, next: row.nextRound }, 'a watch goes on after a restart');
      const lastMs = row.startedAtMs + row.nextRound * row.everyMs;
      if (row.forMs === null && now().getTime() - lastMs > FORGOTTEN_MS)
        finish(watch, 'cut-short', FORGOTTEN);
      else goOn(watch, 0);
    },
    async stop() {
      if (going === null) return;
      const watch = going;
      await halt(watch);
      if (going === watch) finish(watch, 'stopped', null);
    },
    roundOver: async () => {
      await going?.round;
    },
    async close() {
      if (going === null) return;
      const watch = going;
      going = null;
      await halt(watch);
    },
  };
}
