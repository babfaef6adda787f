import type { Database } from 'better-sqlite3';
import type { Encoding } from '../../../core/files/encoding.ts';

/** In what a file is written that is not in UTF-8, and the hash of its bytes. */
export type Written = Readonly<{ encoding: Exclude<Encoding, 'utf-8'>; sha256: string }>;
/** Nulls where it is in UTF-8, or from before this was kept. */
export type SourceFile = Readonly<{
  text: string;
  encoding: Written['encoding'] | null;
  sha256: string | null;
}>;

/** Statements on the files that sweeps were taken from. The caller owns the transaction. */
export function sweepFileStatements(archive: Database) {
  const addFile = archive.prepare('INSERT INTO sweep_file (sweep, body) VALUES (?, ?)');
  const addWritten = archive.prepare(
    'INSERT INTO sweep_file_written (sweep, encoding, sha256) VALUES (?, ?, ?)',
  );
  // A correction has no file of its own: that of the sweep which it names is meant.
  const fileOf = archive.prepare<[number], SourceFile>(
    `WITH RECURSIVE meant (seq) AS (SELECT ? UNION
       SELECT s.corrects FROM sweep s JOIN meant m ON m.seq = s.seq WHERE s.corrects IS NOT NULL)
     SELECT f.body text, w.encoding, w.sha256 FROM sweep_file f
       LEFT JOIN sweep_file_written w ON w.sweep = f.sweep WHERE f.sweep IN (SELECT seq FROM meant)`,
  );
  return {
    /** `written` where its bytes are its text in another encoding than UTF-8. */
    addFile: (seq: number, body: string, written: Written | null): void => {
      addFile.run(seq, body);
      if (written !== null) addWritten.run(seq, written.encoding, written.sha256);
    },
    /** The file that a sweep was taken from. */
    fileOf: (seq: number): SourceFile | undefined => fileOf.get(seq),
  };
}
