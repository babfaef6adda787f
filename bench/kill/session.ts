import { randomUUID } from 'node:crypto';
import type { SessionFacts } from '../../electron/backend/archive/session.ts';

/** A new run of the program, as it is kept with every record. */
export const killSession = (openedAtMs: number): SessionFacts => ({
  ...{ sessionId: randomUUID(), openedAtMs, program: '0.1.0', host: 'memory' },
  ...{ utcOffsetMin: 0, timeZone: 'UTC' },
});
