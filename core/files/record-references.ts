import type { Plain, PlainObject } from '../records/canonical-text.ts';

/** Another record that a record names. */
export type Reference = Readonly<{ kind: string; id: string }>;

/** Which key names which kind, in a record and in what it holds. */
const named: Readonly<Record<string, string>> = {
  session: 'session',
  visit: 'visit',
  sweep: 'sweep',
  design: 'design',
  proposal: 'proposal',
  live: 'live',
  setUp: 'set-up',
};
/** Whose own id these are, where a record of one parent has no other. */
const ids: Readonly<Record<string, string>> = {
  session: 'sessionId',
  design: 'designId',
  visit: 'visitId',
  'visit-end': 'visit',
  sweep: 'sweepId',
  void: 'voidId',
  proposal: 'proposalId',
  fitting: 'fittingId',
  'trim-turn': 'turnId',
  live: 'liveId',
  'set-up': 'setUpId',
  'set-up-abandoned': 'setUp',
  watch: 'watchId',
};

/** What a laptop was told, has in its truck or was used with is its own and stays there. */
const travelling = new Set([...Object.keys(ids), 'set-up-event', 'notes', 'calibration']);

/**
 * Whether records of a kind go from one laptop to another.
 * @source  this project's own choice: settings, truck, the meter last used and the simulated network count for one laptop alone
 */
export const travels = (kind: string): boolean => travelling.has(kind);

/**
 * What a record is called, the same on every laptop.
 * @param contentDigest  of the record's canonical text; the name where it has no other
 * @returns  its UUID; a parent's UUID and a place; or the digest
 * @source   this project's own form of a record; no published source
 */
export function recordName(kind: string, document: PlainObject, contentDigest: () => string): string {
  if (kind === 'set-up-event') return `${String(document.setUp)}/${String(document.place)}`;
  const key = ids[kind];
  const id = key === undefined ? undefined : document[key];
  return typeof id === 'string' ? id : contentDigest();
}

const isObject = (value: Plain | undefined): value is PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/**
 * Which records must be there before this one.
 * @param document  a checked record
 * @returns  each once, in the order in which the record names them
 * @source   this project's own form of a record; no published source
 */
export function referencesOf(kind: string, document: PlainObject): readonly Reference[] {
  const found = new Map<string, Reference>();
  const add = (of: string, id: Plain | undefined) => {
    if (typeof id === 'string') found.set(`${of} ${id}`, { kind: of, id });
  };
  // A design has its own text under that key.
  for (const [key, of] of Object.entries(named))
    if (!(kind === 'design' && of === 'design')) add(of, document[key]);
  // What a sweep, a live reading or a watch holds names sessions too.
  if (isObject(document.end)) add('session', document.end.session);
  if (isObject(document.corrects)) add('sweep', document.corrects.sweep);
  for (const key of ['meters', 'temperatures']) {
    const rows = document[key];
    if (Array.isArray(rows)) for (const row of rows) if (isObject(row)) add('session', row.session);
  }
  if (kind === 'watch' && isObject(document.rounds) && Array.isArray(document.rounds.session))
    for (const id of new Set(document.rounds.session)) add('session', id);
  return [...found.values()];
}
