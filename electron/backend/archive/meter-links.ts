import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type MeterUseRow = Readonly<{
  /** JSON. */
  choice: string;
  /** JSON. */
  identity: string;
  adapter: string | null;
  connectedAtMs: number;
}>;

/** Statements on the bytes of sweeps and the meters that were used. The caller owns the transaction. */
export function meterLinkStatements(archive: Database, session: Session) {
  const addBytes = archive.prepare('INSERT INTO sweep_bytes (sweep, body, session) VALUES (?, ?, ?)');
  const bytes = archive.prepare<[number], Buffer>('SELECT body FROM sweep_bytes WHERE sweep = ?').pluck();
  const addUse = archive.prepare(
    'INSERT INTO meter_use (choice, identity, adapter, connected_at, session) VALUES (?, ?, ?, ?, ?)',
  );
  const lastUse = archive.prepare<[], MeterUseRow>(
    'SELECT choice, identity, adapter, connected_at connectedAtMs FROM meter_use ORDER BY seq DESC LIMIT 1',
  );
  return {
    /** @param seq  the sweep's; a sweep has one such row at most */
    addBytes: (seq: number, body: Uint8Array): void => {
      addBytes.run(seq, body, session.number());
    },
    bytes: (seq: number): Uint8Array | undefined => bytes.get(seq),
    addUse: (use: MeterUseRow): void => {
      addUse.run(use.choice, use.identity, use.adapter, use.connectedAtMs, session.number());
    },
    lastUse: (): MeterUseRow | undefined => lastUse.get(),
  };
}
