import { randomUUID } from 'node:crypto';
import { createBackend } from '../../electron/backend/backend.ts';
import { createFakeMeterShop } from '../../tests/support/fake-meter.ts';

/**
 * Starts the services once more without killing them, makes a backup and gives records into each folder, as on any day.
 * @returns  the backups
 */
export async function putAway({
  folder,
  stick,
  nowMs,
}: Readonly<{ folder: string; stick: string; nowMs: number }>): Promise<readonly string[]> {
  const now = () => new Date(nowMs);
  const nothing = () => undefined;
  const { handlers, close } = await createBackend({
    ...{ dataDir: folder, host: 'memory', version: '0.1.0', now, newId: randomUUID, emit: nothing },
    meters: createFakeMeterShop({ now }),
    log: { info: nothing, warn: nothing, error: nothing },
  });
  const { signal } = new AbortController();
  try {
    const made = [];
    for (const to of [null, stick]) made.push((await handlers['backups.make']({ folder: to }, signal)).path);
    await handlers['transfer.give']({ what: { kind: 'everything' }, folder: stick }, signal);
    return made;
  } finally {
    await close();
  }
}
