import { setImmediate as turn } from 'node:timers/promises';
import { Refused } from '../../../core/bridge/refused.ts';
import type { Archive } from '../archive/open.ts';
import { rereadSweep } from './sweep-reread.ts';

export type FromBytes = Readonly<{
  /** Sweeps whose bytes say the same levels. */
  same: number;
  /** Sweeps of a meter that no bytes are kept with: corrections, and those of older programs. */
  without: number;
  /** Sweeps whose bytes say otherwise, are damaged, or can't be read by this program. */
  different: readonly Readonly<{ sweepId: string; words: string }>[];
}>;

/**
 * Reads every sweep of a meter again from the bytes that are kept with it.
 * @param told  how many sweeps were read again so far, after each
 * @throws  the signal's reason when it aborts
 */
export async function sweepsFromBytes(
  archive: Pick<Archive, 'sweeps' | 'meterLinks'>,
  signal: AbortSignal,
  told: (sweeps: number) => void = () => undefined,
): Promise<FromBytes> {
  const different: { sweepId: string; words: string }[] = [];
  let same = 0;
  let without = 0;
  for (const [at, sweepId] of archive.meterLinks.sweepsOfMeters().entries()) {
    signal.throwIfAborted();
    const sweep = archive.sweeps.byId(sweepId);
    if (sweep === undefined) continue;
    try {
      const found = await rereadSweep({ archive }, sweep);
      if (!found.kept) without += 1;
      else if (found.same) same += 1;
      else different.push({ sweepId, words: 'its bytes say other levels than its readings' });
    } catch (fault) {
      if (!(fault instanceof Refused)) throw fault;
      different.push({ sweepId, words: fault.refusal.help });
    }
    told(at + 1);
    await turn();
  }
  return { same, without, different };
}
