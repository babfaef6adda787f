import type { CallName, Handlers } from '../../core/bridge/contract.ts';
import { calls } from '../../core/bridge/contract.ts';

/** Handlers of which a test needs only some; any other call is a fault that names itself. */
export function plainHandlers(some: Partial<Handlers>): Handlers {
  const entries = Object.keys(calls).map((name) => [
    name,
    () => Promise.reject(new Error(`${name} is not part of this test`)),
  ]);
  // Built from the contract's own names, so that every call is there; the compiler sees a plain record.
  return { ...(Object.fromEntries(entries) as Record<CallName, never>), ...some };
}
