import type { archiveCalls } from '../../core/bridge/archive-calls.ts';
import type { Handlers } from '../../core/bridge/contract.ts';
import { createSweepAmendments } from './services/amend-sweeps.ts';
import type { Designs } from './services/designs.ts';
import type { Runs } from './services/runs.ts';
import type { ServiceParts } from './services/service-parts.ts';
import { verify } from './services/verify.ts';

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
      const { broken, ...verified } = await verify(parts.archive, signal);
      return { ...verified, broken: [...broken] };
    },
  };
}
