import { randomUUID } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import type { PlainObject } from '../../../core/records/canonical-text.ts';
import { GENESIS, linkHash } from '../../../core/records/chain.ts';
import { createChain, sha256Hex } from './chain.ts';
import { type Documents, wholeKinds } from './documents.ts';
import { type FoundRow, lastNumberOf, readableRows, type TableShape } from './read-damaged.ts';
import { beginChain } from './restore.ts';
import { strays } from './verify.ts';

export type Relinked = Readonly<{
  /** Records whose hash shows that they are as they were recorded. */
  proven: number;
  /** Records that can be read, but whose hash is lost or another: kept, and linked anew as what was found. */
  unproven: number;
  /** Records that the archive had and of which nothing is left. */
  lost: number;
}>;

type FoundLink = Readonly<{
  device: number;
  deviceSeq: number;
  kind: string;
  row: number;
  place: number;
  previous: Buffer | null;
  hash: Buffer;
}>;

const HASH_BYTES = 32;
const isHash = (cell: unknown): cell is Buffer => Buffer.isBuffer(cell) && cell.length === HASH_BYTES;

const shapeOf = (shapes: readonly TableShape[], name: string): TableShape => {
  const found = shapes.find((shape) => shape.name === name);
  if (found === undefined) throw new Error(`no table ${name}`);
  return found;
};
function* rowsOf(sources: readonly Database[], shape: TableShape): Generator<FoundRow> {
  for (const source of sources) yield* readableRows(source, shape);
}

/** The devices of the sources by their numbers; one that only sessions still name gets an id, and proves nothing. */
function takeDevices(to: Database, sources: readonly Database[], shapes: readonly TableShape[]): void {
  to.exec('DELETE FROM own_device; DELETE FROM device; DELETE FROM chain_pending');
  const add = to.prepare('INSERT OR IGNORE INTO device (seq, device_id) VALUES (?, ?)');
  for (const [seq, deviceId] of rowsOf(sources, shapeOf(shapes, 'device'))) add.run(seq, deviceId);
  const named = to
    .prepare<[], number>('SELECT DISTINCT device FROM session WHERE device NOT IN (SELECT seq FROM device)')
    .pluck()
    .all();
  for (const seq of named) add.run(seq, randomUUID());
  const addOwn = to.prepare(
    'INSERT OR IGNORE INTO own_device (seq, device) SELECT ?, seq FROM device WHERE seq = ?',
  );
  for (const [seq, device] of rowsOf(sources, shapeOf(shapes, 'own_device'))) addOwn.run(seq, device);
  beginChain(to);
}

/** By device and place there; the first source that has one says it. */
function takeLinks(sources: readonly Database[], shapes: readonly TableShape[]): readonly FoundLink[] {
  const shape = shapeOf(shapes, 'link');
  const found = new Map<string, FoundLink>();
  for (const row of rowsOf(sources, shape)) {
    const cell = (column: string) => row[shape.columns.indexOf(column)] ?? null;
    const [previous, hash] = [cell('previous'), cell('hash')];
    if (!isHash(hash)) continue;
    const link = {
      device: Number(cell('device')),
      deviceSeq: Number(cell('device_seq')),
      kind: String(cell('kind')),
      row: Number(cell('row')),
      place: Number(cell('place')),
      previous: isHash(previous) ? previous : null,
      hash,
    };
    const name = `${link.device} ${link.deviceSeq}`;
    if (!found.has(name)) found.set(name, link);
  }
  return [...found.values()].toSorted((a, b) => a.device - b.device || a.deviceSeq - b.deviceSeq);
}

/** Null where there is none, or what is there can't be a record. */
function documentOf(documents: Documents, kind: string, row: number, place: number): PlainObject | null {
  try {
    return documents.of(kind, row, place) ?? null;
  } catch {
    return null;
  }
}

/** A sweep without its levels is none, and one that had ended must not pass for one that was cut short. */
function removeHalves(to: Database, documents: Documents, links: readonly FoundLink[]): void {
  for (const kind of wholeKinds) {
    const linked = links.filter((link) => link.kind === kind).map(({ row }) => row);
    const ended = to.prepare<[], number>(`SELECT ${kind} FROM ${kind}_end`).pluck().all();
    const remove = to.prepare(`DELETE FROM ${kind} WHERE seq = ?`);
    for (const row of new Set([...linked, ...ended]))
      if (documentOf(documents, kind, row, 0) === null) remove.run(row);
  }
}

/** Whether the record is the one that was linked there. */
function isProven(link: FoundLink, deviceId: string, previous: Buffer, document: PlainObject): boolean {
  const place = { device: deviceId, seq: link.deviceSeq, previous: previous.toString('hex') };
  try {
    return linkHash(place, link.kind, document, sha256Hex) === link.hash.toString('hex');
  } catch {
    // No record of this program has such a document.
    return false;
  }
}

const follows = (link: FoundLink, before: FoundLink | null): before is FoundLink =>
  before !== null && before.device === link.device && before.deviceSeq + 1 === link.deviceSeq;

/**
 * The chain of what was saved: what its hash proves keeps its place among the old device's records, all else is linked
 * anew by the salvaged archive's own device.
 * @param to             the new archive, without triggers, its rows taken
 * @param removeOrphans  lets go what belongs to what is lost
 */
export function relink(
  to: Database,
  sources: readonly Database[],
  shapes: readonly TableShape[],
  removeOrphans: () => void,
): Relinked {
  takeDevices(to, sources, shapes);
  removeOrphans();
  const links = takeLinks(sources, shapes);
  const { documents, link: linkAnew } = createChain(to);
  removeHalves(to, documents, links);
  removeOrphans();

  // Of a chain that two laptops wrote, one part has a number of its own and the other's id.
  const idOf = to.prepare<[number], string>(
    `SELECT coalesce((SELECT r.device_id FROM device_fork f JOIN device r ON r.seq = f.of_device WHERE f.device = d.seq),
       d.device_id) FROM device d WHERE d.seq = ?`,
  );
  const add = to.prepare(
    'INSERT OR IGNORE INTO link (device, device_seq, kind, row, place, previous, hash) VALUES (?, ?, ?, ?, ?, ?, ?)',
  );
  let proven = 0;
  let before: FoundLink | null = null;
  let kept: FoundLink | null = null;
  for (const link of links) {
    const { device, deviceSeq, kind, row, place, hash } = link;
    const previous =
      link.previous ??
      (deviceSeq === 1 ? Buffer.from(GENESIS, 'hex') : follows(link, before) ? before.hash : null);
    before = link;
    const document = documentOf(documents, kind, row, place);
    const deviceId = idOf.pluck().get(device) as string | undefined;
    if (document === null || deviceId === undefined || previous === null) continue;
    if (!isProven(link, deviceId, previous, document)) continue;
    const joins = link.previous === null && (deviceSeq === 1 || follows(link, kept));
    proven += add.run(device, deviceSeq, kind, row, place, joins ? null : previous, hash).changes;
    kept = link;
  }

  let unproven = 0;
  for (const { kind, sql } of strays())
    for (const { row, place } of to.prepare<[], { row: number; place: number }>(sql).all()) {
      linkAnew(kind, row, place);
      unproven += 1;
    }
  const numbered = sources.map((source) => lastNumberOf(source, 'link'));
  return { proven, unproven, lost: Math.max(0, Math.max(links.length, ...numbered) - proven - unproven) };
}
