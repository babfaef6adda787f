import type { CallName, Handlers } from '../../core/bridge/contract.ts';
import type { Designs } from './services/designs.ts';
import { createLive } from './services/live.ts';
import type { Meters } from './services/meters.ts';
import type { Runs } from './services/runs.ts';
import type { ServiceParts } from './services/service-parts.ts';
import { createSetUps } from './services/set-up.ts';
import { createSimulatedHands } from './services/simulated-hand.ts';
import { createSleep, type Sleep } from './services/sleep.ts';
import type { Visits } from './services/visits.ts';
import { createWatches } from './services/watch.ts';
import type { WatchPace } from './services/watch-runner.ts';

type GainControlCall = Extract<CallName, `${'live' | 'set-up' | 'watch' | 'simulate'}.${string}`>;

export type GainControl = Readonly<{
  handlers: Pick<Handlers, GainControlCall>;
  /** Before a sweep begins or the meter is changed: no live reading may run, and a watch's round is let end. */
  freeMeter(): Promise<void>;
  /** Before the meter is put away: a watch needs it. */
  mayPutMeterAway(): Promise<void>;
  visitEnds(visitId: string): Promise<void>;
  stationChanged(stationId: string): void;
  /** The computer's own sleep ends whatever reads, so it is joined where all that reads is known. */
  sleep: Sleep;
  close(): Promise<void>;
}>;

export type GainControlOptions = ServiceParts &
  Readonly<{
    clients?: (() => number) | undefined;
    watchPace?: WatchPace | undefined;
    withoutPageMs?: number | undefined;
    /** How time passes after the computer woke; unless told, as it does. */
    restAfterWaking?: ((ms: number, signal: AbortSignal) => Promise<void>) | undefined;
  }>;

/** Joins the calls of a gain control's set-up to their services: live levels, the sheet of steps, unattended watches. */
export function joinGainControl(
  options: GainControlOptions,
  services: Readonly<{ designs: Designs; visits: Visits; meters: Meters; runs: Runs }>,
): GainControl {
  const { designs, visits, meters, runs } = services;
  const { clients = () => 1, watchPace, withoutPageMs, restAfterWaking } = options;
  const live = createLive(options, designs, visits, meters, runs, clients, withoutPageMs);
  const setUps = createSetUps(options, designs, visits);
  const hands = createSimulatedHands(options, designs, meters, live.probeAgain);
  const sleep = createSleep(options, { meters, runs, live, rest: restAfterWaking });
  const meterTakenBy = (): string | null => {
    if (runs.running() !== null) return 'a sweep had the meter';
    return live.current() === null ? sleep.asleep() : 'a live reading had the meter';
  };
  const watches = createWatches(options, designs, visits, meters, meterTakenBy, watchPace);
  watches.resume();

  const freeMeter = async (): Promise<void> => {
    live.refuseWhileRunning();
    await watches.roundOver();
  };
  return {
    handlers: {
      'live.start': async (input) => {
        await watches.roundOver();
        return live.start(input);
      },
      'live.stop': async (input) => {
        await live.stop(input);
        return {};
      },
      'live.current': async () => ({ live: live.current() }),
      'live.open': async (input) => live.open(input),
      'simulate.hand': async (input) => hands.hand(input),
      'simulate.module': async (input) => ({ module: hands.module(input) }),
      'set-up.begin': async (input) => setUps.begin(input),
      'set-up.open': async (input) => setUps.open(input),
      'set-up.record': async (input) => setUps.record(input),
      'set-up.abandon': async (input) => setUps.abandon(input),
      'set-up.list': async (input) => setUps.list(input),
      'watch.start': async (input) => watches.start(input),
      'watch.stop': (input) => watches.stop(input),
      'watch.temperature': async (input) => {
        watches.temperature(input);
        return {};
      },
      'watch.current': async () => ({ watch: watches.current() }),
      'watch.open': async (input) => watches.open(input),
      'watch.list': async (input) => watches.list(input),
    },
    freeMeter,
    async mayPutMeterAway() {
      watches.refuseWhileRunning();
      await freeMeter();
    },
    visitEnds: live.stopIn,
    stationChanged: live.probeAgain,
    sleep,
    async close() {
      await watches.close();
      await live.close();
    },
  };
}
