import { open } from 'node:fs/promises';
import { Refused } from '../../core/bridge/refused.ts';
import { writeSweepCsv } from '../../core/files/write-csv.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { refuse } from '../../core/result.ts';

/** A sweep file that grows by a row as each is read; every row is on the disk before the next one is asked for. */
export interface ReadingFile {
  append(row: LevelRow): Promise<void>;
  close(): Promise<void>;
}

/** Begins a new file; throws `Refused` where it can't, and where there is one: a sweep is never written over. */
export async function beginReadingFile(path: string, comments: readonly string[]): Promise<ReadingFile> {
  const file = await open(path, 'wx').catch((fault: NodeJS.ErrnoException) => {
    const help =
      fault.code === 'EEXIST'
        ? 'there is a file of this name; name another one, a sweep is never written over'
        : `can't be written (${fault.code ?? fault.message}); check the folder`;
    throw new Refused(refuse('unwritable', path, help));
  });
  const put = async (text: string) => {
    await file.appendFile(text);
    await file.datasync();
  };
  await put(writeSweepCsv([], comments));
  const header = writeSweepCsv([]);
  return {
    append: (row) => put(writeSweepCsv([row]).slice(header.length)),
    close: () => file.close(),
  };
}
