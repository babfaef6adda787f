import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import { type Reference, recordName, referencesOf, travels } from '../../../core/files/record-references.ts';
import { type RecordsLine, type RecordsScope, recordsText } from '../../../core/files/records-file.ts';
import { canonicalText, type PlainObject } from '../../../core/records/canonical-text.ts';
import { GENESIS } from '../../../core/records/chain.ts';
import { type Chain, sha256Hex } from './chain.ts';
import { recordPlaces } from './record-places.ts';
import { isSimple, type SimpleKind, simpleKinds } from './records.ts';

type LinkRow = Readonly<{
  device: string;
  seq: number;
  previous: string;
  hash: string;
  kind: string;
  row: number;
  place: number;
}>;
type Conflict = Readonly<{
  device: string;
  seq: number;
  previous: string;
  hash: string;
  kind: string;
  id: string;
  document: string;
  attachments: string | null;
}>;

/** Where a kind's rows say of which station they are, in which visit, and when they were made. */
type Facts = Readonly<{ station: string; visit: string; at: string }>;
const VISIT_OF = (table: string, row: string) => `(SELECT p.visit FROM ${table} p WHERE p.seq = ${row})`;
const STATION_OF = (table: string, row: string) =>
  `(SELECT p.station_id FROM ${table} p WHERE p.seq = ${row})`;
const inVisit = (at: string): Facts => ({ station: 't.station_id', visit: 't.visit', at: `t.${at}` });
const facts: Readonly<Record<string, Facts>> = {
  design: { station: 't.station_id', visit: 'NULL', at: 't.added_at' },
  visit: { station: 't.station_id', visit: 't.seq', at: 't.started_at' },
  'visit-end': { station: STATION_OF('visit', 't.visit'), visit: 't.visit', at: 't.ended_at' },
  sweep: inVisit('started_at'),
  void: { station: STATION_OF('sweep', 't.sweep'), visit: VISIT_OF('sweep', 't.sweep'), at: 't.voided_at' },
  proposal: inVisit('proposed_at'),
  fitting: inVisit('fitted_at'),
  'trim-turn': inVisit('turned_at'),
  live: inVisit('started_at'),
  watch: inVisit('started_at'),
  'set-up': inVisit('started_at'),
  'set-up-event': {
    station: STATION_OF('set_up', 't.set_up'),
    visit: VISIT_OF('set_up', 't.set_up'),
    at: 't.happened_at',
  },
  'set-up-abandoned': {
    station: STATION_OF('set_up', 't.set_up'),
    visit: VISIT_OF('set_up', 't.set_up'),
    at: 't.abandoned_at',
  },
  notes: { station: 't.station_id', visit: 'NULL', at: 't.changed_at' },
  calibration: { station: 'NULL', visit: 'NULL', at: 't.noted_at' },
};

type Asked = Readonly<{ station: string | null; from: number; to: number }>;
const ALWAYS = 253_402_300_800_000;
const askedOf = (what: RecordsScope): Asked => ({
  station: 'stationId' in what ? what.stationId : null,
  from: 'fromMs' in what ? what.fromMs : 0,
  to: 'toMs' in what ? what.toMs : ALWAYS,
});

const tableOf = (kind: string): SimpleKind | null => (isSimple(kind) ? simpleKinds[kind] : null);

/** The rows of a kind that were asked for: by the visit that they belong to, or when they were made themselves. */
function chosen(kind: string, { station, visit, at }: Facts): string {
  const shape = tableOf(kind);
  const [table, row, place] = [shape?.table ?? kind, shape?.row ?? 'seq', shape?.place ?? null];
  const begun = `(SELECT v.started_at FROM visit v WHERE v.seq = ${visit})`;
  return `SELECT t.${row} row, ${place === null ? '0' : `t.${place}`} place FROM ${table} t
    WHERE (@station IS NULL OR ${station} IS NULL OR ${station} = @station)
      AND ((${at} >= @from AND ${at} < @to) OR (${begun} >= @from AND ${begun} < @to))`;
}

/** What a station is judged by goes along whole wherever anything of it does, its designs before all else. */
const alongWith = (table: string): string =>
  `SELECT t.seq row, 0 place FROM ${table} t WHERE t.station_id = ?
   ORDER BY t.order_ms, (SELECT x.session_id FROM session x WHERE x.seq = t.session)`;

const LINK = `SELECT coalesce((SELECT r.device_id FROM device_fork f JOIN device r ON r.seq = f.of_device WHERE f.device = l.device),
    (SELECT d.device_id FROM device d WHERE d.seq = l.device)) device, l.device_seq seq,
  coalesce(nullif(lower(hex(l.previous)), ''), (SELECT lower(hex(b.hash)) FROM link b
    WHERE b.device = l.device AND b.device_seq = l.device_seq - 1), '${GENESIS}') previous,
  lower(hex(l.hash)) hash, l.kind, l.row, l.place FROM link l`;

/**
 * The records that were asked for as lines of a file, each after those that it names, and everything that they name.
 * The same records give the same lines, whatever way they came into this archive.
 */
export function* giveOut(db: Database, chain: Chain, what: RecordsScope): Generator<string, number> {
  const asked = askedOf(what);
  const { documents } = chain;
  const places = recordPlaces(db, chain);
  const key = ({ kind, row, place }: Pick<LinkRow, 'kind' | 'row' | 'place'>) => `${kind} ${row} ${place}`;

  const wanted = new Set<string>();
  for (const [kind, where] of Object.entries(facts))
    for (const at of db.prepare<[Asked], { row: number; place: number }>(chosen(kind, where)).iterate(asked))
      wanted.add(key({ kind, ...at }));
  const links = db
    .prepare<[], Pick<LinkRow, 'kind' | 'row' | 'place'>>(
      `SELECT kind, row, place FROM (${LINK}) ORDER BY device, seq, hash`,
    )
    .all()
    .filter((link) => wanted.has(key(link)));
  const linkAt = db.prepare<[string, number, number], LinkRow>(
    `${LINK} WHERE l.kind = ? AND l.row = ? AND l.place = ?`,
  );
  const designs = db.prepare<[string], { row: number; place: number }>(alongWith('design_revision'));
  const notes = db.prepare<[string], { row: number; place: number }>(alongWith('notes_revision'));
  const portions = db
    .prepare<[number], Buffer>('SELECT body FROM sweep_portion WHERE sweep = ? ORDER BY place')
    .pluck();
  const whole = db.prepare<[number], Buffer>('SELECT body FROM sweep_bytes WHERE sweep = ?').pluck();
  const file = db.prepare<[number], string>('SELECT body FROM sweep_file WHERE sweep = ?').pluck();
  const conflicts = db.prepare<[string, string], Conflict>(
    `SELECT device_id device, device_seq seq, previous, hash, kind, record_id id, document, attachments
     FROM conflict WHERE kind = ? AND record_id = ? ORDER BY hash`,
  );

  const given = new Set<string>();
  const stations = new Set<string>();
  const odd = new Map<string, Conflict>();
  let count = 0;

  const beside = (kind: string, row: number): Readonly<Record<string, string>> | undefined => {
    if (kind !== 'sweep') return undefined;
    const bodies = portions.all(row);
    const older = bodies.length === 0 ? whole.get(row) : undefined;
    const text = file.get(row);
    const all = [
      ...(older === undefined ? bodies : [older]).map((body, i) => [`raw-${i}`, body.toString('base64')]),
      ...(text === undefined ? [] : [['file', Buffer.from(text, 'utf8').toString('base64')]]),
    ];
    return all.length === 0 ? undefined : Object.fromEntries(all);
  };
  const named = ({ kind, id }: Reference): Pick<LinkRow, 'kind' | 'row' | 'place'> => {
    const at = places.rowOf(kind, { [kind === 'set-up' ? 'setUpId' : `${kind}Id`]: id });
    if (at === undefined) throw new RangeError(`a ${kind} that a record names is gone: ${id}`);
    return { kind, ...at };
  };

  function* give(at: Pick<LinkRow, 'kind' | 'row' | 'place'>): Generator<string, void> {
    if (given.has(key(at)) || !travels(at.kind)) return;
    given.add(key(at));
    const document = documents.of(at.kind, at.row, at.place);
    const link = linkAt.get(at.kind, at.row, at.place);
    if (document === undefined || link === undefined)
      throw new RangeError(`a ${at.kind} can't be given: it is damaged; see archive verify`);
    const before = referencesOf(at.kind, document).map(named);
    // What a running reading proved waits for its end; the next file has both.
    if (before.some((one) => linkAt.get(one.kind, one.row, one.place) === undefined)) return;
    for (const one of before) yield* give(one);
    const { stationId } = document;
    const isNew = typeof stationId === 'string' && !stations.has(stationId);
    if (isNew) {
      stations.add(stationId);
      for (const row of designs.all(stationId)) yield* give({ kind: 'design', ...row });
    }
    const { device, seq, previous, hash, kind } = link;
    const id = recordName(kind, document, () => sha256Hex(canonicalText(document)));
    const attachments = beside(kind, at.row);
    const line: RecordsLine = { device, seq, previous, hash, kind, id, document };
    count += 1;
    yield recordsText(attachments === undefined ? line : { ...line, attachments });
    for (const other of conflicts.all(kind, id)) odd.set(other.hash, other);
    if (isNew) for (const row of notes.all(stationId)) yield* give({ kind: 'notes', ...row });
  }

  for (const link of links) yield* give(link);
  for (const other of [...odd.values()].toSorted((a, b) => (a.hash < b.hash ? -1 : 1))) {
    const document = JSON.parse(other.document) as PlainObject;
    for (const reference of referencesOf(other.kind, document)) yield* give(named(reference));
    const { attachments, ...link } = other;
    count += 1;
    yield recordsText({
      ...link,
      document,
      ...(attachments === null ? {} : { attachments: JSON.parse(attachments) as Record<string, string> }),
    });
  }
  return count;
}

/** The first and the last line of a file, and the hash between them. */
export function recordsFrame(first: string) {
  const hash = createHash('sha256').update(first);
  return {
    add: (line: string): void => {
      hash.update(line);
    },
    last: (records: number): string => recordsText({ end: true, records, sha256: hash.copy().digest('hex') }),
  };
}
