/** Clocks that a test can turn. */
export type SleepClocks = Readonly<{
  /** Time of day in ms; it goes on while the computer sleeps. */
  wallMs: () => number;
  every: (ms: number, tick: () => void) => () => void;
}>;

const TICK_MS = 1000;
/** A busy moment is shorter than this; a lid that was closed is longer. */
const JUMP_MS = 5000;

export const usualClocks: SleepClocks = {
  wallMs: () => Date.now(),
  every(ms, tick) {
    const timer = setInterval(tick, ms);
    timer.unref();
    return () => clearInterval(timer);
  },
};

/**
 * Tells when this computer, or this process, was asleep: between two ticks of a timer the time of day went on by more than
 * five seconds. A clock that somebody sets forward looks the same, and costs no more than asking the meter who it is.
 * @returns  ends the watch
 */
export function watchSleep(slept: (forMs: number) => void, clocks: SleepClocks = usualClocks): () => void {
  let lastMs = clocks.wallMs();
  return clocks.every(TICK_MS, () => {
    const nowMs = clocks.wallMs();
    const missedMs = nowMs - lastMs - TICK_MS;
    lastMs = nowMs;
    if (missedMs > JUMP_MS) slept(missedMs);
  });
}
