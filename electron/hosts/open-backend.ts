import type { Emit } from '../../core/bridge/contract.ts';
import type { Backend } from '../backend/backend.ts';

/** How a host opens the backend; tests open a small one of their own. */
export type OpenBackend = (
  options: Readonly<{ dataDir: string; host: 'window' | 'browser'; emit: Emit; clients: () => number }>,
) => Promise<Backend>;
