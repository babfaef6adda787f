import type { Database } from 'better-sqlite3';

export const verdictCodes = ['fail', 'pass', 'undecided'] as const;

/** What a sweep came to by what it was judged by then; all null where it never was, or can't be judged. */
export type JudgedColumns = Readonly<{
  /** Where in `judged_basis` what it was judged by is; null where it never was judged. */
  basis: number | null;
  /** By place in `verdictCodes`. */
  verdict: number | null;
  levelDb: number | null;
  tiltDb: number | null;
  flatnessDb: number | null;
  worstDb: number | null;
  worstMhz: number | null;
  /** Or why it can't be judged; null where nobody has asked for the words of a judged one. */
  words: string | null;
}>;

/** To be read with a sweep `s`. */
export const JUDGED_COLUMNS = `j.basis, j.verdict, j.level_db levelDb, j.tilt_db tiltDb, j.flatness_db flatnessDb,
  j.worst_db worstDb, j.worst_mhz worstMhz, j.words`;
export const JUDGED_JOIN = 'LEFT JOIN judged_sweep j ON j.sweep = s.seq';

/** Statements on what sweeps came to when they were last judged. No records: everything here may be lost. The caller owns the transaction. */
export function judgedStatements(archive: Database) {
  const basisOf = archive.prepare<[string], number>('SELECT seq FROM judged_basis WHERE digest = +?').pluck();
  const addBasis = archive.prepare('INSERT INTO judged_basis (digest) VALUES (?)');
  const keep = archive.prepare(
    `INSERT OR REPLACE INTO judged_sweep
       (sweep, basis, verdict, level_db, tilt_db, flatness_db, worst_db, worst_mhz, words)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  return {
    /** Where this basis is; undefined where nothing was ever judged by it. */
    judgedBasis: (digest: string): number | undefined => basisOf.get(digest),
    keepJudged: (sweep: number, digest: string, columns: Omit<JudgedColumns, 'basis'>): void => {
      const basis = basisOf.get(digest) ?? Number(addBasis.run(digest).lastInsertRowid);
      const { verdict, levelDb, tiltDb, flatnessDb, worstDb, worstMhz, words } = columns;
      keep.run(sweep, basis, verdict, levelDb, tiltDb, flatnessDb, worstDb, worstMhz, words);
    },
  };
}
