import type { LevelRow, SignalKind } from '../line/level-row.ts';
import { type LineUpEntry, occupiedBand, usualOffset } from './line-up.ts';
import { qamOrderOf } from './qam-order.ts';

/** Rows of one kind of signal; QAM of another order is another kind. */
export type SignalGroup = Readonly<{
  /** "analog", "256-QAM", "QAM of unknown order", "OFDM", "pilot", "unknown kind". */
  name: string;
  kind: SignalKind | null;
  qamOrder: number | null;
  count: number;
  /** How far these rows are carried from the reference line, dB: what was taken away from their levels. */
  offsetDb: number;
  basis: string;
}>;
export type Normalized<Row extends LevelRow = LevelRow> = Readonly<{
  /** As many rows in the same order, levels in dBmV on the reference's line. The same rows where nothing was moved. */
  rows: readonly Row[];
  /** Per row what was taken away from its level, dB. */
  offsetDb: Float64Array;
  /** Per row the index of its group. */
  groupAt: Int32Array;
  groups: readonly SignalGroup[];
  /** What the reference line is that of: a group's name, or "line-up" where a line-up says every offset. */
  reference: string;
  moved: boolean;
  /** What was done, in words, a sentence each; empty where nothing was moved and nothing is in doubt. */
  notes: readonly string[];
}>;

const UNKNOWN_QAM_DB = -6;
const ONE_KIND = 'one kind: nothing to move';
/** A row this near to a channel's edge still belongs to it, MHz: carrier offsets of 12.5 and 25 kHz and their like. */
const EDGE_MHZ = 0.25;

type Key = Readonly<{ name: string; kind: SignalKind | null; qamOrder: number | null }>;
const UNKNOWN: Key = { name: 'unknown kind', kind: null, qamOrder: null };

const qamKey = (qamOrder: number | null): Key => ({
  name: qamOrder === null ? 'QAM of unknown order' : `${qamOrder}-QAM`,
  kind: 'qam',
  qamOrder,
});

/**
 * What kind of signal a row is of, from what its source calls it.
 * @param row  its `kind` goes first; a QAM order is read from `modulation`, which alone makes it QAM, OFDM or analog
 * @returns  a name for people, kind and QAM order; all null but the name where nothing is told
 * @source   ITU-T J.83 and common practice for the ways of writing a modulation
 */
export function signalOf(row: LevelRow): Key {
  const order = row.modulation === undefined ? null : qamOrderOf(row.modulation);
  const kind = row.kind ?? (order === null ? kindNamed(row.modulation) : 'qam');
  switch (kind) {
    case undefined:
      return UNKNOWN;
    case 'qam':
      return qamKey(order);
    case 'analog':
      return { name: 'analog', kind, qamOrder: null };
    case 'ofdm':
      return { name: 'OFDM', kind, qamOrder: null };
    case 'cw':
      return { name: 'pilot', kind, qamOrder: null };
  }
}

function kindNamed(modulation: string | undefined): SignalKind | undefined {
  if (modulation === undefined) return undefined;
  if (/^ofdm/i.test(modulation.trim())) return 'ofdm';
  return /^qam$/i.test(modulation.trim()) ? 'qam' : undefined;
}

function usualOf({ kind, qamOrder }: Key): Readonly<{ offsetDb: number; basis: string }> | null {
  if (kind === null) return null;
  const usual = usualOffset(kind, qamOrder ?? undefined);
  if (usual.ok) return usual.value;
  return { offsetDb: UNKNOWN_QAM_DB, basis: `${usual.where}: taken as 256-QAM; ${usual.help}` };
}

const db = (valueDb: number): string => Math.abs(valueDb).toFixed(1);
const carried = (offsetDb: number, reference: string): string =>
  offsetDb === 0
    ? `compared as ${reference}`
    : `compared with a line ${db(offsetDb)} dB ${offsetDb < 0 ? 'below' : 'above'} ${reference}`;
const rowCount = (count: number): string => (count === 1 ? '1 row' : `${count} rows`);

/**
 * Moves rows of different kinds of signal onto one reference line, so that each is compared with its own target.
 *
 * With a line-up every row takes the offset of the channel it lies in; a row in no channel stays as it stands, and is
 * named. Without one, rows are moved by the usual offsets of their kinds, but only where more than one kind is there; the
 * reference is the analog line, or that of the kind with the most rows. Rows of one kind are never moved.
 * @param rows    MHz and dBmV, any order
 * @param lineUp  checked entries, or null
 * @returns  rows on the reference line, and what was done by kind and in words
 * @source   design: "QAM carried 6 dB down is compared with its own target"; usual offsets: see `usualOffset`
 */
export function normalizeRows<Row extends LevelRow>(
  rows: readonly Row[],
  lineUp: readonly LineUpEntry[] | null,
): Normalized<Row> {
  return lineUp === null || lineUp.length === 0 ? byKind(rows) : byLineUp(rows, lineUp);
}

/** Every row its group, in the order in which the groups are first met. */
function grouped(keyOf: (row: LevelRow, i: number) => Key, rows: readonly LevelRow[]) {
  const groupAt = new Int32Array(rows.length);
  const keys: Key[] = [];
  const counts: number[] = [];
  let last: Key | null = null;
  let at = -1;
  for (let i = 0; i < rows.length; i++) {
    const key = keyOf(rows[i] as LevelRow, i);
    // Neighbours are mostly of one kind: the same key as before needs no looking up.
    if (key !== last) {
      at = keys.findIndex(({ name }) => name === key.name);
      if (at === -1) at = keys.push(key) - 1;
      last = key;
    }
    groupAt[i] = at;
    counts[at] = (counts[at] ?? 0) + 1;
  }
  return { groupAt, keys, counts };
}

const moved = <Row extends LevelRow>(rows: readonly Row[], offsetDb: Float64Array): readonly Row[] =>
  rows.map((row, i) => {
    const offset = offsetDb[i] ?? 0;
    return offset === 0 || row.levelDbmv === null ? row : { ...row, levelDbmv: row.levelDbmv - offset };
  });

/** Rows that all call their signal the same: nothing to look at further. */
function allAlike<Row extends LevelRow>(rows: readonly Row[]): Normalized<Row> | null {
  const first = rows[0];
  if (first === undefined) return null;
  for (const row of rows) if (row.kind !== first.kind || row.modulation !== first.modulation) return null;
  const key = signalOf(first);
  return {
    rows,
    offsetDb: new Float64Array(rows.length),
    groupAt: new Int32Array(rows.length),
    groups: [{ ...key, count: rows.length, offsetDb: 0, basis: ONE_KIND }],
    reference: key.name,
    moved: false,
    notes: [],
  };
}

function byKind<Row extends LevelRow>(rows: readonly Row[]): Normalized<Row> {
  const alike = allAlike(rows);
  if (alike !== null) return alike;
  const known = new Map<string, Key>();
  let last: LevelRow | null = null;
  let lastKey = UNKNOWN;
  const { groupAt, keys, counts } = grouped((row) => {
    if (last !== null && row.kind === last.kind && row.modulation === last.modulation) return lastKey;
    const words = `${row.kind ?? ''}/${row.modulation ?? ''}`;
    lastKey = known.get(words) ?? signalOf(row);
    known.set(words, lastKey);
    last = row;
    return lastKey;
  }, rows);
  const countOf = (at: number) => counts[at] ?? 0;
  const goesFirst = (at: number, best: number): boolean => {
    const analog = (one: number) => (keys[one]?.kind === 'analog' ? 1 : 0);
    const more = analog(at) - analog(best) || countOf(at) - countOf(best);
    return more === 0 ? (keys[at]?.name ?? '') < (keys[best]?.name ?? '') : more > 0;
  };
  const reference = keys.reduce(
    (best, key, at) => (key.kind !== null && (best === -1 || goesFirst(at, best)) ? at : best),
    -1,
  );
  const referenceKey = keys[reference];
  const several = keys.filter(({ kind }) => kind !== null).length > 1 && referenceKey !== undefined;
  const base = several ? (usualOf(referenceKey)?.offsetDb ?? 0) : 0;
  const groups = keys.map((key, at): SignalGroup => {
    const usual = several ? usualOf(key) : null;
    return {
      ...key,
      count: countOf(at),
      offsetDb: usual === null ? 0 : usual.offsetDb - base,
      basis: usual?.basis ?? (several ? 'kind not told: compared as it stands' : ONE_KIND),
    };
  });
  const offsetDb = new Float64Array(rows.length);
  for (let i = 0; i < offsetDb.length; i++) offsetDb[i] = groups[groupAt[i] ?? 0]?.offsetDb ?? 0;
  const isMoved = groups.some((group) => group.offsetDb !== 0);
  const referenceName = referenceKey?.name ?? UNKNOWN.name;
  return {
    rows: isMoved ? moved(rows, offsetDb) : rows,
    offsetDb,
    groupAt,
    groups,
    reference: referenceName,
    moved: isMoved,
    notes: several
      ? groups
          .filter(({ name }) => name !== referenceName)
          .map(
            ({ name, count, offsetDb: by, kind }) =>
              `${rowCount(count)} of ${name}${kind === null ? ' compared as they stand' : ` ${carried(by, referenceName)}, the usual step`}.`,
          )
      : [],
  };
}

function byLineUp<Row extends LevelRow>(
  rows: readonly Row[],
  lineUp: readonly LineUpEntry[],
): Normalized<Row> {
  const entries = lineUp.toSorted((a, b) => a.frequencyMhz - b.frequencyMhz);
  const found = rows.map((row) => (row.frequencyMhz === null ? null : entryNear(entries, row.frequencyMhz)));
  const offsetDb = Float64Array.from(found, (entry) => entry?.offsetDb ?? 0);
  const keyOf = (row: LevelRow, i: number): Key => {
    const entry = found[i];
    if (entry === null || entry === undefined)
      return { ...signalOf(row), name: 'in no channel of the line-up' };
    const { kind, qamOrder } = entry;
    const key = kind === 'qam' ? qamKey(qamOrder ?? null) : signalOf({ ...row, kind });
    return { ...key, name: `${key.name} at ${entry.offsetDb} dB` };
  };
  const { groupAt, keys, counts } = grouped(keyOf, rows);
  const groups = keys.map((key, at): SignalGroup => {
    const i = groupAt.indexOf(at);
    return { ...key, count: counts[at] ?? 0, offsetDb: offsetDb[i] ?? 0, basis: 'line-up of this station' };
  });
  const isMoved = offsetDb.some((offset) => offset !== 0);
  const stray = rows.filter(
    (row, i) => found[i] === null && row.frequencyMhz !== null && row.levelDbmv !== null,
  );
  const named = stray.slice(0, 5).map(({ frequencyMhz }) => `${frequencyMhz} MHz`);
  return {
    rows: isMoved ? moved(rows, offsetDb) : rows,
    offsetDb,
    groupAt,
    groups,
    reference: 'line-up',
    moved: isMoved,
    notes: [
      ...groups
        .filter((group) => group.offsetDb !== 0)
        .map(
          ({ name, count, offsetDb: by }) =>
            `${rowCount(count)} of ${name} ${carried(by, 'the design line')}, as the line-up says.`,
        ),
      ...(stray.length === 0
        ? []
        : [
            `${rowCount(stray.length)} in no channel of the line-up, compared as they stand: ${named.join(', ')}${stray.length > named.length ? ', …' : ''}.`,
          ]),
    ],
  };
}

/** The entry whose band holds the frequency; of two, the nearer. Bands do not overlap, so only two can. */
function entryNear(rising: readonly LineUpEntry[], frequencyMhz: number): LineUpEntry | null {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle]?.frequencyMhz ?? 0) < frequencyMhz) low = middle + 1;
    else high = middle;
  }
  let best: LineUpEntry | null = null;
  for (const entry of [rising[low - 1], rising[low]]) {
    if (entry === undefined) continue;
    const band = occupiedBand(entry);
    if (!band.ok) continue;
    if (frequencyMhz < band.value.lowMhz - EDGE_MHZ || frequencyMhz > band.value.highMhz + EDGE_MHZ) continue;
    if (
      best === null ||
      Math.abs(entry.frequencyMhz - frequencyMhz) < Math.abs(best.frequencyMhz - frequencyMhz)
    )
      best = entry;
  }
  return best;
}
