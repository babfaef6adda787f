/** The archive can't be opened or can't keep a record: what, where, and what would help, in words for the technician. */
export class ArchiveFault extends Error {
  readonly code:
    | 'in-use'
    | 'not-a-database'
    | 'not-ours'
    | 'newer'
    | 'damaged'
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
      'nothing can be written there; give this account the right to, or start with --data and another folder. An archive on such a drive is taken over with "archive restore --from FILE" of the command line',
      fault,
    );
  if (isDiskTrouble(fault))
    return new ArchiveFault(
      'full',
      path,
      `the disk takes no more (${sqliteCodeOf(fault)}); free some space or mend the drive, then try again`,
      fault,
    );
  if (/^SQLITE_CORRUPT/.test(sqliteCodeOf(fault) ?? ''))
    return new ArchiveFault('damaged', path, 'the archive is damaged', fault);
  return fault;
}
