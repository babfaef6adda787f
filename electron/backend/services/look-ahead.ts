import { setTimeout as sleep } from 'node:timers/promises';
import type { Quality } from './quality.ts';
import type { Runs } from './runs.ts';
import type { ServiceParts } from './service-parts.ts';

/** How often it is looked whether something was recorded. */
const EVERY_MS = 3000;

export type LookAhead = Readonly<{ close(): Promise<void> }>;

/**
 * Works out what the table of all records shows while nobody waits for it: when a sweep has ended, records came from another laptop,
 * or the settings judge otherwise. It takes at most half of the time, and none while a sweep is read or
 * somebody waits for the same.
 */
export function createLookAhead(
  { archive, log }: Pick<ServiceParts, 'archive' | 'log'>,
  quality: Pick<Quality, 'ahead' | 'isBusy'>,
  runs: Pick<Runs, 'running'>,
  everyMs = EVERY_MS,
): LookAhead {
  const closing = new AbortController();
  const { signal } = closing;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let working: Promise<void> = Promise.resolve();
  /** What had been recorded when all was last worked out; null before the first time. */
  let seen: number | null = null;

  const walk = async (): Promise<void> => {
    const recorded = archive.stations.recorded();
    if (recorded === seen) return;
    for (let after: number | null = 0; after !== null; ) {
      if (runs.running() !== null || quality.isBusy()) return;
      const begun = performance.now();
      after = await quality.ahead(after, signal);
      await sleep(performance.now() - begun, undefined, { signal, ref: false });
    }
    seen = recorded;
  };
  const plan = (): void => {
    timer = setTimeout(() => {
      // Whatever went wrong is worked out when somebody asks for it, and told then.
      working = walk().then(plan, (fault: unknown) => {
        if (!signal.aborted) log.warn({ fault: String(fault) }, 'the records were not looked at ahead');
      });
    }, everyMs);
    timer.unref();
  };
  plan();

  return {
    async close() {
      closing.abort();
      clearTimeout(timer);
      await working;
      clearTimeout(timer);
    },
  };
}
