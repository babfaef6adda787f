import type { Database } from 'better-sqlite3';
import type { Chain } from './chain.ts';

/** One run of the program, as its records name it. */
export type SessionFacts = Readonly<{
  sessionId: string;
  openedAtMs: number;
  program: string;
  host: 'window' | 'browser' | 'memory';
  utcOffsetMin: number;
  timeZone: string;
}>;

export type Session = Readonly<{
  /** The session's number. Its row is made with the first record, in the same transaction. */
  number(): number;
  /** The transaction that may have made the row is over: kept, or rolled back. */
  settle(kept: boolean): void;
  /** As the chain's: where a record of this moment comes, and its link at the end of the chain. */
  order: Chain['order'];
  link: Chain['link'];
}>;

/** A run that only reads leaves no row, so that an archive on a full disk can still be opened and read. */
export function createSession(archive: Database, facts: SessionFacts, chain: Chain): Session {
  const add = archive.prepare(
    'INSERT INTO session (session_id, opened_at, program, host, utc_offset_min, time_zone, device) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  let kept: number | null = null;
  let number: number | null = null;
  return {
    number() {
      if (number !== null) return number;
      number = Number(
        add.run(
          facts.sessionId,
          facts.openedAtMs,
          facts.program,
          facts.host,
          facts.utcOffsetMin,
          facts.timeZone,
          chain.device(),
        ).lastInsertRowid,
      );
      chain.link('session', number);
      return number;
    },
    settle(wasKept) {
      if (wasKept) kept = number;
      else number = kept;
    },
    order: chain.order,
    link: chain.link,
  };
}
