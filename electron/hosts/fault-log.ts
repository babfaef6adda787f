import type { OnFault } from '../../core/bridge/dispatch.ts';
import type { Logger } from '../backend/log.ts';

/** Faults of ours go to the log beside the archive, with their stacks; the page gets their message only. */
export function faultsTo(log: Logger): OnFault {
  return (where, fault) => log.error({ where, err: fault }, 'fault');
}
