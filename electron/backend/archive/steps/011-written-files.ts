/*
 * A sweep's file is kept as its text. Where it was not written in UTF-8, its bytes are that text in another encoding: which one,
 * and what those bytes come to, so that the file can be given out as it was and proves itself. Files of before say nothing of it.
 */
const table = `
CREATE TABLE sweep_file_written (
  sweep INTEGER PRIMARY KEY NOT NULL REFERENCES sweep_file (sweep),
  encoding TEXT NOT NULL CHECK (encoding IN ('utf-16le', 'utf-16be', 'windows-1252')),
  sha256 TEXT NOT NULL CHECK (length(sha256) = 64)
) STRICT;
CREATE TRIGGER sweep_file_written_is_never_changed BEFORE UPDATE ON sweep_file_written
BEGIN SELECT RAISE(ABORT, 'sweep_file_written is a record: it is never changed'); END;
CREATE TRIGGER sweep_file_written_is_never_deleted BEFORE DELETE ON sweep_file_written
BEGIN SELECT RAISE(ABORT, 'sweep_file_written is a record: it is never deleted'); END;
`;

/** Every table here holds records. */
export const writtenFileTables = ['sweep_file_written'] as const;

export const writtenFiles = table;
