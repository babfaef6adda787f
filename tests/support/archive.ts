import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { onTestFinished } from 'vitest';
import type { EventData, EventName } from '../../core/bridge/contract.ts';
import type { Ballast } from '../../electron/backend/archive/ballast.ts';
import type { Step } from '../../electron/backend/archive/migrate.ts';
import { ARCHIVE_FILE, type Archive, openArchive } from '../../electron/backend/archive/open.ts';
import { unmarkRunning } from '../../electron/backend/archive/running-mark.ts';
import type { SessionFacts } from '../../electron/backend/archive/session.ts';
import type { Logger } from '../../electron/backend/log.ts';
import type { ServiceParts } from '../../electron/backend/services/service-parts.ts';
import { type Clock, createClock, createIds } from './clock.ts';

export { stationFile } from './station-file.ts';

/** A folder of the system's temporary ones, gone when the test is over. */
export function throwAwayFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'tiltwright-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true, maxRetries: 5 }));
  return folder;
}

export const silentLog: Logger = { info: () => undefined, warn: () => undefined, error: () => undefined };

export const sessionFacts = (sessionId: string): SessionFacts => ({
  sessionId,
  openedAtMs: Date.parse('2026-03-02T08:00:00.000Z'),
  program: '0.0.0-test',
  host: 'memory',
  utcOffsetMin: 0,
  timeZone: 'UTC',
});

/** Opens the archive of a folder; closed when the test is over, or earlier by the test itself. */
export function openTestArchive(folder: string, steps?: readonly Step[], ballast?: Ballast): Archive {
  const session = sessionFacts(crypto.randomUUID());
  const archive = openArchive({ folder, session, ballast, ...(steps === undefined ? {} : { steps }) });
  onTestFinished(() => archive.close());
  return archive;
}

/** Looks into the file of a closed archive with plain SQLite. */
export function lookInto<T>(folder: string, look: (db: Database.Database) => T): T {
  const db = new Database(join(folder, ARCHIVE_FILE));
  try {
    return look(db);
  } finally {
    db.close();
    // Plain SQLite puts a killed program's log into the file and takes it away; nobody shall miss it.
    unmarkRunning(folder);
  }
}

export type Sent = { [N in EventName]: Readonly<{ name: N; data: EventData<N> }> }[EventName];

/** Everything that a service needs, over a real archive; what was emitted lies in `sent`. */
export type TestParts = ServiceParts & Readonly<{ sent: Sent[]; clock: Clock; folder: string }>;

export function testParts(folder = throwAwayFolder(), ballast?: Ballast): TestParts {
  const clock = createClock();
  const sent: Sent[] = [];
  return {
    archive: openTestArchive(folder, undefined, ballast),
    emit: (name, data) => {
      sent.push({ name, data } as Sent);
    },
    now: clock.now,
    newId: createIds(),
    log: silentLog,
    sent,
    clock,
    folder,
  };
}
