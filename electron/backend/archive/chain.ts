import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { GENESIS, linkHash } from '../../../core/records/chain.ts';
import { createDocuments, type Documents } from './documents.ts';
import { ordered } from './steps/006-records-tables.ts';

export const sha256Hex = (text: string): string => createHash('sha256').update(text, 'utf8').digest('hex');

/** The newest record of this archive's own chain: kept elsewhere, it proves that nothing before it was changed. */
export type Head = Readonly<{ device: string; seq: number; hash: string }>;

export type Chain = Readonly<{
  /**
   * Puts the record that these rows hold at the end of the own chain; inside the transaction that added them.
   * @param row    what names it in its kind's table
   * @param place  its place there, where one parent has many
   */
  link(kind: string, row: number, place?: number): void;
  /** Where a record of this moment comes: never before one of this device that was recorded earlier. */
  order(atMs: number): number;
  head(): Head;
  /** The own device's number in this archive. */
  device(): number;
  documents: Documents;
}>;

/** The chain of the device as which this archive writes. */
export function createChain(db: Database): Chain {
  const documents = createDocuments(db);
  const own = db.prepare<[], { seq: number; deviceId: string }>(
    `SELECT d.seq, d.device_id deviceId FROM own_device o JOIN device d ON d.seq = o.device ORDER BY o.seq DESC LIMIT 1`,
  );
  const last = db.prepare<[number], { seq: number; hash: string }>(
    'SELECT device_seq seq, lower(hex(hash)) hash FROM link WHERE device = ? ORDER BY device_seq DESC LIMIT 1',
  );
  const add = db.prepare(
    'INSERT INTO link (device, device_seq, kind, row, place, previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  const device = () => {
    const found = own.get();
    if (found === undefined) throw new Error('the archive has no device');
    return found;
  };
  const head = (): Head => {
    const { seq, deviceId } = device();
    const newest = last.get(seq);
    return { device: deviceId, seq: newest?.seq ?? 0, hash: newest?.hash ?? GENESIS };
  };
  // A restored archive's records come after all that it held when it was a device of another name.
  let lastOrderMs = -1;
  for (const table of ['sweep', 'sweep_void', 'trim_turn', ...ordered.map(([name]) => name)]) {
    // A correction stands in the place of the sweep that it corrects.
    const newest = db
      .prepare<[], number>(
        `SELECT t.order_ms FROM ${table} t JOIN session x ON x.seq = t.session
         WHERE x.device IN (SELECT device FROM own_device)${table === 'sweep' ? ' AND t.corrects IS NULL' : ''} ORDER BY t.seq DESC LIMIT 1`,
      )
      .pluck()
      .get();
    lastOrderMs = Math.max(lastOrderMs, newest ?? -1);
  }
  return {
    documents,
    head,
    device: () => device().seq,
    order(atMs) {
      lastOrderMs = Math.max(atMs, lastOrderMs + 1);
      return lastOrderMs;
    },
    link(kind, row, place = 0) {
      const document = documents.of(kind, row, place);
      if (document === undefined) throw new Error(`no ${kind} ${row} to link`);
      const { device: deviceId, seq, hash: previous } = head();
      const hash = linkHash({ device: deviceId, seq: seq + 1, previous }, kind, document, sha256Hex);
      add.run(device().seq, seq + 1, kind, row, place, null, Buffer.from(hash, 'hex'));
    },
  };
}
