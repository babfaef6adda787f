import type { Handlers } from '../../core/bridge/contract.ts';
import type { transferCalls } from '../../core/bridge/transfer-calls.ts';
import type { Runs } from './services/runs.ts';
import type { ServiceParts } from './services/service-parts.ts';
import { createTransfer } from './services/transfer.ts';

/** The calls on records of other laptops. */
export function joinTransfer(parts: ServiceParts, runs: Runs): Pick<Handlers, keyof typeof transferCalls> {
  const transfer = createTransfer(parts, runs);
  return {
    'transfer.look': async () => transfer.look(),
    'transfer.give': (input, signal) => transfer.give(input, signal),
    'transfer.part': (input) => transfer.part(input),
    'transfer.put': (input) => transfer.put(input),
    'transfer.take': (input, signal) => transfer.take(input, signal),
  };
}
