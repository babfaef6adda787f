import type { Emit, Handlers } from '../../core/bridge/contract.ts';
import type { Logger } from './log.ts';
import type { MeterShop } from './meters/meter-shop.ts';

export type HostKind = 'window' | 'browser' | 'memory';

export type BackendOptions = Readonly<{
  /** The folder of the archive and the log; made when it isn't there. */
  dataDir: string;
  host: HostKind;
  /** The program's version, kept with every record that this run makes. */
  version: string;
  meters: MeterShop;
  emit: Emit;
  now: () => Date;
  /** A random UUID. */
  newId: () => string;
  log: Logger;
}>;

export type Backend = Readonly<{
  handlers: Handlers;
  /** Ends a running sweep as partial, closes the meter's link and the archive. May be called twice. */
  close(): Promise<void>;
}>;

/** A backend with its real parts, and what a host needs beside the handlers. */
export type OpenedBackend = Backend & Readonly<{ dataDir: string; log: Logger }>;

/** Opens the archive and joins the services. Throws `ArchiveFault` when the archive can't be used. */
export async function createBackend(_options: BackendOptions): Promise<Backend> {
  throw new Error('the services are not joined yet');
}

/**
 * The backend of a host: real meters, the system clock, a log in the data folder.
 * @param options.dataDir  as `--data` gave it; without it, the user's own data folder
 * @throws  `Refused` when the folder is no place for an archive, `ArchiveFault` when the archive can't be used
 */
export async function openBackend(
  _options: Readonly<{ dataDir?: string | undefined; host: HostKind; emit: Emit }>,
): Promise<OpenedBackend> {
  throw new Error('the services are not joined yet');
}
