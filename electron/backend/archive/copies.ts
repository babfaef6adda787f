import { statSync } from 'node:fs';
import type { Database } from 'better-sqlite3';
import type { Chain, Head } from './chain.ts';

/** How far the records of an archive go. */
export type Extent = Readonly<{ head: Head; links: number; newestLink: number }>;

/** What a copy of the archive needs of its open file. */
export type Copies = Readonly<{
  /**
   * Copies everything into a new file, some pages a turn, while records are still added: those come into the copy too.
   * @param told  pages copied and pages in all; what it throws ends the copying
   */
  copyTo(path: string, told: (done: number, total: number) => void): Promise<void>;
  extent(): Extent;
  /** What a copy that goes this far must be: the links up to there, and the hash of each chain's place. */
  upTo(copy: Extent): Readonly<{ links: number; hash: string | undefined }>;
  /** The file and what waits beside it. */
  bytes(): number;
  /** Puts what waits in the log into the file, so that the log's room is free. False when it can't. */
  checkpoint(): boolean;
}>;

const PAGES_A_TURN = 250;

export function extentOf(db: Database, chain: Pick<Chain, 'head'>): Extent {
  const [links, newestLink] = db
    .prepare<[], [number, number]>('SELECT count(*), coalesce(max(seq), 0) FROM link')
    .raw()
    .get() ?? [0, 0];
  return { head: chain.head(), links, newestLink };
}

export function archiveCopies(db: Database, chain: Chain): Copies {
  const sizeOf = (path: string) => statSync(path, { throwIfNoEntry: false })?.size ?? 0;
  const counted = db.prepare<[number], number>('SELECT count(*) FROM link WHERE seq <= ?').pluck();
  const hashAt = db
    .prepare<[string, number], string>(
      `SELECT lower(hex(l.hash)) FROM link l JOIN device d ON d.seq = l.device
       WHERE d.device_id = ? AND l.device_seq = ?`,
    )
    .pluck();
  return {
    async copyTo(path, told) {
      await db.backup(path, {
        progress: ({ totalPages, remainingPages }) => {
          told(totalPages - remainingPages, totalPages);
          return PAGES_A_TURN;
        },
      });
    },
    extent: () => extentOf(db, chain),
    upTo: ({ newestLink, head }) => ({
      links: counted.get(newestLink) ?? 0,
      hash: hashAt.get(head.device, head.seq),
    }),
    bytes: () => sizeOf(db.name) + sizeOf(`${db.name}-wal`),
    checkpoint() {
      try {
        const [done] = db.pragma('wal_checkpoint(TRUNCATE)') as readonly { busy: number }[];
        return done?.busy === 0;
      } catch {
        return false;
      }
    },
  };
}
