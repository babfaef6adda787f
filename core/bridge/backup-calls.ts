import { z } from 'zod';
import { Moment } from './records.ts';

const count = z.number().int().min(0);

/** A backup that was looked through after it was written. */
export const BackupLine = z.strictObject({
  path: z.string(),
  madeAt: Moment,
  records: count,
  sweeps: count,
  /** Records in it that were not as they were recorded; 0 in a good one. */
  broken: count,
  bytes: count,
});
export type BackupLine = z.infer<typeof BackupLine>;

export const backupCalls = {
  /** Where the archive and its backups are; the newest backup first. */
  'backups.list': {
    in: z.strictObject({}),
    out: z.strictObject({
      folder: z.string(),
      archivePath: z.string(),
      archiveBytes: count,
      backups: z.array(BackupLine),
    }),
  },
  /** Copies the archive and looks the copy through. A cancelled call leaves no file. */
  'backups.make': {
    in: z.strictObject({
      /** Another drive, say; null for the folder beside the archive. */
      folder: z.string().trim().min(1).max(4000).nullable(),
    }),
    out: BackupLine,
  },
} as const;

export const backupEvents = {
  /** How far a backup is: pages copied, or records looked at. */
  'backup.progress': z.strictObject({
    what: z.enum(['copying', 'checking']),
    done: count,
    total: count,
  }),
} as const;
