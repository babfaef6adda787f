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

/** SQLite's faults that a person can do something about, in their words; any other fault as it came. */
export function archiveFaultOf(fault: unknown, path: string): unknown {
  if (isDiskTrouble(fault))
    return new ArchiveFault(
      'full',
      path,
      `the disk takes no more (${sqliteCodeOf(fault)}); free some space or mend the drive, then try again`,
      fault,
    );
  if (/^SQLITE_CORRUPT/.test(sqliteCodeOf(fault) ?? ''))
    return new ArchiveFault(
      'damaged',
      path,
      'the archive is damaged; keep this file as it is, and start with a restored copy or with --data and another folder',
      fault,
    );
  return fault;
}
