import { setImmediate as turn } from 'node:timers/promises';
import type { Archive } from '../archive/open.ts';
import type { Verified } from '../archive/verify.ts';

const PORTION_MS = 10;

/**
 * Looks at every record again, in small portions, so that a sweep that is being recorded meanwhile doesn't wait.
 * @param told  how many records were looked at so far, after each portion
 * @throws  the signal's reason when it aborts
 */
export async function verify(
  archive: Pick<Archive, 'verify'>,
  signal: AbortSignal,
  told: (records: number) => void = () => undefined,
): Promise<Verified> {
  const work = archive.verify();
  let since = performance.now();
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    if (performance.now() - since < PORTION_MS) continue;
    told(step.value);
    await turn();
    signal.throwIfAborted();
    since = performance.now();
  }
}
