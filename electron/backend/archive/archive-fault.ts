/** The archive can't be opened or can't keep a record: what, where, and what would help, in words for the technician. */
export class ArchiveFault extends Error {
  readonly code:
    | 'in-use'
    | 'not-a-database'
    | 'not-ours'
    | 'newer'
    | 'damaged'
    | 'foreign-log'
    | 'log-missing'
    | 'emptied'
    | 'unsafe'
    | 'read-only'
    | 'no-backup'
    | 'full';
  readonly where: string;
  readonly help: string;
  constructor(code: ArchiveFault['code'], where: string, help: string, cause?: unknown) {
    super(`${where}: ${help}`, { cause });
    this.name = 'ArchiveFault';
    this.code = code;
    this.where = where;
    this.help = help;
  }
}

/** A verb of the command line for an archive's folder, as it is typed in the folder of the program. */
export const archiveCommand = (verb: string, folder: string): string =>
  `\`npm run -s tiltwright -- archive ${verb} --data "${folder}"\``;

/** SQLite's own name of what went wrong, or null when something else was thrown. */
export const sqliteCodeOf = (fault: unknown): string | null =>
  fault instanceof Error &&
  'code' in fault &&
  typeof fault.code === 'string' &&
  fault.code.startsWith('SQLITE_')
    ? fault.code
    : null;

/** The disk is full or failing: the archive itself is sound, and a later try may succeed. */
export const isDiskTrouble = (fault: unknown): boolean =>
  /^SQLITE_(FULL|IOERR|CANTOPEN|READONLY)/.test(sqliteCodeOf(fault) ?? '');

/** Nothing more goes onto the disk, or a write on it failed: what room can be given back may help. */
export const isOutOfRoom = (fault: unknown): boolean =>
  /^SQLITE_(FULL|IOERR_(WRITE|FSYNC|TRUNCATE|SHMSIZE))$/.test(sqliteCodeOf(fault) ?? '') ||
  (fault instanceof Error && 'code' in fault && fault.code === 'ENOSPC');

/** The folder or its drive takes nothing from this account. */
const isReadOnly = (fault: unknown): boolean =>
  /^SQLITE_(READONLY|CANTOPEN)/.test(sqliteCodeOf(fault) ?? '') ||
  (fault instanceof Error &&
    'code' in fault &&
    /^(EACCES|EPERM|EROFS|ENOTDIR|EEXIST)$/.test(String(fault.code)));

/** SQLite's faults that a person can do something about, in their words; any other fault as it came. */
export function archiveFaultOf(fault: unknown, path: string): unknown {
  if (isReadOnly(fault))
    return new ArchiveFault(
      'read-only',
      path,
      'nothing can be written there; give this account the right to read and write, or start with --data and another folder. An archive on such a drive is taken over with `npm run -s tiltwright -- archive restore --from FILE --data DIR`',
      fault,
    );
  if (isDiskTrouble(fault) || isOutOfRoom(fault))
    return new ArchiveFault(
      'full',
      path,
      `the disk takes no more (${sqliteCodeOf(fault) ?? 'ENOSPC'}); free some space or mend the drive, then try again`,
      fault,
    );
  if (/^SQLITE_CORRUPT/.test(sqliteCodeOf(fault) ?? ''))
    return new ArchiveFault('damaged', path, 'the archive is damaged', fault);
  return fault;
}
