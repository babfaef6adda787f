import type { archiveCalls } from '../../core/bridge/archive-calls.ts';
import type { Handlers } from '../../core/bridge/contract.ts';
import { createSweepAmendments } from './services/amend-sweeps.ts';
import type { Designs } from './services/designs.ts';
import type { Runs } from './services/runs.ts';
import type { ServiceParts } from './services/service-parts.ts';
import { verify } from './services/verify.ts';

const TOLD_EVERY_MS = 250;

/** The calls on records as such: what is said of them later, and whether they are what was recorded. */
export function joinArchive(
  parts: ServiceParts,
  { designs, runs }: Readonly<{ designs: Designs; runs: Runs }>,
): Pick<Handlers, keyof typeof archiveCalls> {
  const amendments = createSweepAmendments(parts, designs, runs);
  return {
    'sweeps.void': async (input) => amendments.declareVoid(input),
    'sweeps.correct': async (input) => amendments.correct(input),
    'archive.verify': async (_input, signal) => {
      const total = parts.archive.copies.extent().links;
      let toldAtMs = Number.NEGATIVE_INFINITY;
      const { broken, ...verified } = await verify(parts.archive, signal, (done) => {
        // A page needs to hear of it a few times a second.
        if (performance.now() - toldAtMs < TOLD_EVERY_MS) return;
        toldAtMs = performance.now();
        parts.emit('verify.progress', { done, total });
      });
      return { ...verified, broken: [...broken] };
    },
  };
}
