import type { EventData, Output } from '../../core/bridge/contract.ts';
import { attempt, type Context } from './context.ts';

export type BackupList = Output<'backups.list'>;
export type Checked = Output<'archive.verify'>;
export type CheckProgress = EventData<'verify.progress'>;
export type BackupProgress = EventData<'backup.progress'>;

export const listBackups = (context: Context): Promise<BackupList | null> =>
  attempt(context, 'backups', 'The backups could not be read.', () =>
    context.client.call('backups.list', {}),
  );

/** Null after a fault, which is then the notice. `folder` is another drive; null for the one beside the archive. */
export const makeBackup = async (
  context: Context,
  folder: string | null,
  told: (progress: BackupProgress) => void,
): Promise<BackupList['backups'][number] | null> => {
  const stop = context.client.on('backup.progress', told);
  try {
    return await attempt(context, 'backups', 'No backup was made.', () =>
      context.client.call('backups.make', { folder }),
    );
  } finally {
    stop();
  }
};

/** Null after a fault, which is then the notice, and after it was stopped. */
export const checkRecords = async (
  context: Context,
  signal: AbortSignal,
  told: (progress: CheckProgress) => void,
): Promise<Checked | null> => {
  const stop = context.client.on('verify.progress', told);
  try {
    return await attempt(context, 'backups', 'The records could not be looked at.', () =>
      context.client.call('archive.verify', {}, signal),
    );
  } finally {
    stop();
  }
};
