import { randomUUID } from 'node:crypto';
import type { Emit, Handlers } from '../../core/bridge/contract.ts';
import packageJson from '../../package.json' with { type: 'json' };
import { openArchive } from './archive/open.ts';
import { dataFolder } from './data-folder.ts';
import { createHandlers } from './handlers.ts';
import { createLog, type Logger } from './log.ts';
import { createMeterShop } from './meters/connect.ts';
import { knownProfiles } from './meters/known-profiles.ts';
import type { MeterShop } from './meters/meter-shop.ts';
import { profileFolder } from './meters/profile-folder.ts';

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
  /** How many pages listen; a live reading ends when none does for a minute. */
  clients?: (() => number) | undefined;
}>;

export type Backend = Readonly<{
  handlers: Handlers;
  /** The computer is about to sleep: what runs is kept as partial, and the port is closed. */
  suspend(): Promise<void>;
  /** It woke: the meter is looked for again. */
  resume(): Promise<void>;
  /** Ends a running sweep as partial, closes the meter's link and the archive. May be called twice. */
  close(): Promise<void>;
}>;

/** A backend with its real parts, and what a host needs beside the handlers. */
export type OpenedBackend = Backend & Readonly<{ dataDir: string; log: Logger }>;

/** Opens the archive and joins the services. Throws `ArchiveFault` when the archive can't be used. */
export async function createBackend(options: BackendOptions): Promise<Backend> {
  const { dataDir, host, version, meters, emit, now, newId, log, clients } = options;
  const openedAt = now();
  const archive = openArchive({
    folder: dataDir,
    session: {
      sessionId: newId(),
      openedAtMs: openedAt.getTime(),
      program: version,
      host,
      utcOffsetMin: -openedAt.getTimezoneOffset(),
      timeZone: Intl.DateTimeFormat().resolvedOptions().timeZone,
    },
  });
  log.info({ path: archive.path, version, host, recovered: archive.recovered.length }, 'archive opened');
  const joined = createHandlers({ archive, emit, now, newId, log, shop: meters, host, version, clients });
  joined.care.begin();
  let closing: Promise<void> | null = null;
  return {
    handlers: joined.handlers,
    suspend: joined.sleep.suspend,
    resume: joined.sleep.resume,
    close() {
      closing ??= joined.close().finally(() => {
        archive.close();
        log.info({}, 'archive closed');
      });
      return closing;
    },
  };
}

/**
 * The backend of a host: real meters, the system clock, a log in the data folder.
 * @param options.dataDir  as `--data` gave it; without it, the user's own data folder
 * @throws  `ArchiveFault` when the archive can't be used
 */
export async function openBackend(
  options: Readonly<{
    dataDir?: string | undefined;
    host: HostKind;
    emit: Emit;
    clients?: (() => number) | undefined;
  }>,
): Promise<OpenedBackend> {
  const dataDir = dataFolder(options.dataDir);
  const log = createLog(dataDir);
  const now = () => new Date();
  const backend = await createBackend({
    dataDir,
    host: options.host,
    version: packageJson.version,
    meters: createMeterShop({
      now,
      news: (news) => options.emit('meter.link', { why: null, afterMs: null, leftMs: null, ...news }),
      folder: profileFolder(
        dataDir,
        knownProfiles.map(({ name }) => name),
      ),
    }),
    emit: options.emit,
    now,
    newId: randomUUID,
    log,
    clients: options.clients,
  });
  return { ...backend, dataDir, log };
}
