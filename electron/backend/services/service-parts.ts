import type { Emit } from '../../../core/bridge/contract.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { refuse } from '../../../core/result.ts';
import type { Archive } from '../archive/open.ts';
import type { Logger } from '../log.ts';

/** What every service works with. */
export type ServiceParts = Readonly<{
  archive: Archive;
  emit: Emit;
  now: () => Date;
  newId: () => string;
  log: Logger;
}>;

/** A person's mistake, on its way to them: what, where, and what would help. */
export const refused = (code: string, where: string, help: string): Refused =>
  new Refused(refuse(code, where, help));
