import type { Database } from 'better-sqlite3';
import { z } from 'zod';
import type { RecordsScope } from '../../../core/files/records-file.ts';
import type { PlainObject } from '../../../core/records/canonical-text.ts';
import type { Chain } from './chain.ts';
import { giveOut } from './give-out.ts';
import { recordPlaces } from './record-places.ts';
import type { Session } from './session.ts';
import { createTakeIn, type TakeIn } from './take-in.ts';

/** A file that was taken in. */
export type TakenFile = Readonly<{
  sha256: string;
  fileName: string;
  device: string;
  madeAtMs: number;
  takenAtMs: number;
  operator: string;
  records: number;
  added: number;
  conflicts: number;
}>;
/** Two records of one name that say otherwise: the one that counts here, and the other. */
export type ConflictPair = Readonly<{
  kind: string;
  id: string;
  hash: string;
  takenAtMs: number;
  here: Readonly<{ device: string; seq: number; document: PlainObject }> | null;
  other: Readonly<{ device: string; seq: number; document: PlainObject }>;
}>;

export type Transfer = Readonly<{
  giveOut(what: RecordsScope): Generator<string, number>;
  beginTakeIn(): TakeIn;
  /** When the file was last taken in. */
  takenBefore(sha256: string): TakenFile | undefined;
  /** The newest first. */
  takenFiles(): readonly TakenFile[];
  /** The newest first. */
  conflicts(): readonly ConflictPair[];
}>;

const Document = z.record(z.string(), z.unknown()) as unknown as z.ZodType<PlainObject>;
const FILE = `SELECT sha256, file_name fileName, device_id device, made_at madeAtMs, taken_at takenAtMs, operator,
  records, added, conflicts FROM taken_in`;
const MOST_LISTED = 200;

/** Records to and from other laptops. The caller owns the transaction. */
export function transferStatements(db: Database, chain: Chain, session: Session): Transfer {
  const places = recordPlaces(db, chain);
  const before = db.prepare<[string], TakenFile>(`${FILE} WHERE sha256 = ? ORDER BY seq DESC LIMIT 1`);
  const files = db.prepare<[number], TakenFile>(`${FILE} ORDER BY seq DESC LIMIT ?`);
  const conflicts = db.prepare<
    [number],
    Readonly<{
      kind: string;
      id: string;
      hash: string;
      device: string;
      seq: number;
      text: string;
      takenAtMs: number;
    }>
  >(`SELECT c.kind, c.record_id id, c.hash, c.device_id device, c.device_seq seq, c.document text, f.taken_at takenAtMs
     FROM conflict c JOIN taken_in f ON f.seq = c.taken_in ORDER BY c.seq DESC LIMIT ?`);
  const linkAt = db.prepare<[string, number, number], { device: string; seq: number }>(
    `SELECT coalesce((SELECT r.device_id FROM device_fork f JOIN device r ON r.seq = f.of_device WHERE f.device = l.device),
       (SELECT d.device_id FROM device d WHERE d.seq = l.device)) device, l.device_seq seq
     FROM link l WHERE l.kind = ? AND l.row = ? AND l.place = ?`,
  );
  return {
    giveOut: (what) => giveOut(db, chain, what),
    beginTakeIn: () => createTakeIn(db, chain, session),
    takenBefore: (sha256) => before.get(sha256),
    takenFiles: () => files.all(MOST_LISTED),
    conflicts: () =>
      conflicts.all(MOST_LISTED).map(({ kind, id, hash, device, seq, text, takenAtMs }) => {
        const document = Document.parse(JSON.parse(text));
        const at = places.rowOf(kind, document);
        const link = at === undefined ? undefined : linkAt.get(kind, at.row, at.place);
        const mine = at === undefined ? undefined : chain.documents.of(kind, at.row, at.place);
        const here = link === undefined || mine === undefined ? null : { ...link, document: mine };
        return { kind, id, hash, takenAtMs, here, other: { device, seq, document } };
      }),
  };
}
