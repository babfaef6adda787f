import type { SignalKind } from './level-row.ts';
import { positionsOf, type Shape } from './position.ts';
import { allWithin, medianInPlace, robustLine } from './robust-line.ts';
import type { Excluded, UsableRow } from './usable-rows.ts';

/** Fewer rows than this cannot show which of them is the odd one. */
const FEWEST_ROWS = 5;
/** A row nearer to the line than this is a carrier, however quiet the others are: QAM is carried 6 dB down. */
const NEAR_DB = 8;
/** ... and so is one within this many robust standard deviations. */
const NEAR_SIGMAS = 6;
/** A block of rows at one level nearer than this is carried at another level; deeper, nothing is carried there. */
const BLOCK_DB = 15;
const BLOCK_SPREAD_DB = 4;
const BLOCK_ROWS = 3;
/** A suck-out or a roll-off goes down in steps: its neighbour has at least this share of its depth. */
const SHOULDER = 0.2;
/** Deviations of a normal spread per median absolute deviation. */
const SIGMA_PER_MAD = 1.4826;

export type Screened = Readonly<{
  kept: readonly UsableRow[];
  /** Where each kept row stood among the rows given. */
  keptAt: Int32Array;
  excluded: readonly Excluded[];
  /** Rows that would have gone, but are too many to tell which of them are carriers; null where there are none. */
  farOff: FarOff | null;
}>;
export type FarOff = Readonly<{ count: number; fromDb: number }>;

/**
 * Leaves out rows that are plainly not carriers at their level: said to be unlocked, or far off a line that the others
 * agree on. A tilt, a suck-out, a roll-off at an end of the band, a block or a kind of carriers at another level stay:
 * they are what the station does. Fewer than five rows stay whole.
 *
 * Breakdown point: the line is a repeated median over all rows, so it stays with the carriers while fewer than half of
 * the rows (floor(n / 2) of n) are none, wherever they lie. Where more than a third would go, only rows sunk by more
 * than 15 dB do, because nothing but an empty channel lies there, and only while they are fewer than half; what stays in
 * all the same is counted in `farOff`, and none of the good rows goes for it.
 * @param rows   in rising frequency (MHz), levels in dBmV
 * @param shape  straight in f or in sqrt(f)
 * @returns  the rows kept, in order, and the others with the reason in words
 * @source   contract, section 3, "fit, exactly"; the limits are common practice, no published source; the line: see
 *           `robustLine`
 */
export function screenCarriers(rows: readonly UsableRow[], shape: Shape): Screened {
  const all = new Int32Array(rows.length);
  let allLocked = true;
  for (let i = 0; i < rows.length; i++) {
    all[i] = i;
    if (!isLocked(rows[i])) allLocked = false;
  }
  const locked = allLocked ? rows : rows.filter(isLocked);
  const lockedAt = allLocked ? all : all.filter((i) => isLocked(rows[i]));
  const excluded = allLocked
    ? []
    : rows
        .filter((row) => !isLocked(row))
        .map(({ frequencyMhz, reason }) => ({
          frequencyMhz,
          reason: reason ?? 'not locked: the source itself says that this is no reading',
        }));
  const whole = { kept: locked, keptAt: lockedAt, excluded, farOff: null };
  const lowMhz = locked[0]?.frequencyMhz ?? 0;
  const highMhz = locked.at(-1)?.frequencyMhz ?? 0;
  if (locked.length < FEWEST_ROWS || lowMhz === highMhz) return whole;

  const position = positionsOf(locked, shape, lowMhz, highMhz);
  const levelDbmv = new Float64Array(locked.length);
  for (let i = 0; i < locked.length; i++) levelDbmv[i] = locked[i]?.levelDbmv ?? 0;
  if (allWithin(position, levelDbmv, NEAR_DB)) return whole;
  const { offDb, nearDb } = offTheLine(position, levelDbmv);
  const allFar = farRows(locked, offDb, nearDb);
  const far = plainlyNone(allFar, offDb, nearDb);
  const farOff = allFar.size > far.size ? { count: allFar.size - far.size, fromDb: nearDb } : null;
  if (far.size === 0) return { ...whole, farOff };
  const kept: UsableRow[] = [];
  const keptAt = new Int32Array(locked.length - far.size);
  locked.forEach((row, i) => {
    if (far.has(i)) return;
    keptAt[kept.length] = lockedAt[i] ?? 0;
    kept.push(row);
  });
  return {
    kept,
    keptAt,
    excluded: [
      ...excluded,
      ...[...far].map((i) => ({
        frequencyMhz: locked[i]?.frequencyMhz ?? null,
        reason: reasonOf(offDb[i] ?? 0),
      })),
    ],
    farOff,
  };
}

type OffLine = Readonly<{ offDb: Float64Array; nearDb: number }>;

/**
 * How far each row lies off the robust line, and how near is near. Where nearly half of the rows are sunk at one end of
 * the band, the line still stays with the others but leans, and they seem to scatter: then it is drawn through these alone.
 */
function offTheLine(position: Float64Array, levelDbmv: Float64Array): OffLine {
  const first = offLineOf(position, levelDbmv, null);
  if (first.nearDb <= BLOCK_DB) return first;
  const up: number[] = [];
  first.offDb.forEach((off, i) => {
    if (off >= -BLOCK_DB) up.push(i);
  });
  const sunkCount = position.length - up.length;
  const hasPlaces = (position[up[0] ?? 0] ?? 0) < (position[up.at(-1) ?? 0] ?? 0);
  return sunkCount > 0 && sunkCount < halfOf(position.length) && hasPlaces
    ? offLineOf(position, levelDbmv, up)
    : first;
}

/** Against the line of some rows, or of all. Loops, because `map` and `from` of a typed array take several times as long. */
function offLineOf(position: Float64Array, levelDbmv: Float64Array, some: readonly number[] | null): OffLine {
  const of = (values: Float64Array) =>
    some === null ? values : Float64Array.from(some, (i) => values[i] ?? 0);
  const line = robustLine(of(position), of(levelDbmv));
  const offDb = new Float64Array(levelDbmv.length);
  for (let i = 0; i < offDb.length; i++)
    offDb[i] = (levelDbmv[i] as number) - (line.lowDbmv + line.tiltDb * (position[i] as number));
  const sizeDb = new Float64Array(some?.length ?? offDb.length);
  for (let i = 0; i < sizeDb.length; i++)
    sizeDb[i] = Math.abs(offDb[some === null ? i : (some[i] as number)] as number);
  return { offDb, nearDb: Math.max(NEAR_DB, NEAR_SIGMAS * SIGMA_PER_MAD * medianInPlace(sizeDb)) };
}

/** So many wrong rows can carry a repeated median off; one fewer can not. */
const halfOf = (count: number): number => Math.floor(count / 2);

/** Which of the far rows go: up to a third of all, whatever they are; up to half, those that are sunk; else none. */
function plainlyNone(far: ReadonlySet<number>, offDb: Float64Array, nearDb: number): ReadonlySet<number> {
  if (far.size <= offDb.length / 3) return far;
  const sunk = new Set([...far].filter((i) => (offDb[i] ?? 0) < -Math.max(nearDb, BLOCK_DB)));
  return sunk.size < halfOf(offDb.length) ? sunk : new Set();
}

const isLocked = (row: UsableRow | undefined): boolean =>
  row !== undefined && row.unlocked !== true && row.reason === undefined;

const reasonOf = (offDb: number): string =>
  offDb < 0
    ? `${(-offDb).toFixed(1)} dB below the line of the others: no carrier at its level`
    : `${offDb.toFixed(1)} dB above the line of the others: not a carrier of this line`;

/** Rows off by more than nearDb, run by run of neighbours, without the runs that the station itself explains. */
function farRows(rows: readonly UsableRow[], offDb: Float64Array, nearDb: number): Set<number> {
  const far = new Set<number>();
  const kinds = new Map<SignalKind, number | null>();
  for (let start = 0; start < rows.length; ) {
    const side = sideOf(offDb[start], nearDb);
    let end = start;
    while (end + 1 < rows.length && sideOf(offDb[end + 1], nearDb) === side) end++;
    if (side !== 0 && !hasShoulders(offDb, start, end) && !isBlock(offDb, start, end))
      for (let i = start; i <= end; i++) if (!isAtLevelOfItsKind(rows, offDb, i, kinds)) far.add(i);
    start = end + 1;
  }
  return far;
}

function sideOf(offDb: number | undefined, nearDb: number): number {
  if (offDb === undefined || Math.abs(offDb) <= nearDb) return 0;
  return offDb > 0 ? 1 : -1;
}

/** A suck-out falls and rises in steps on both sides; at an end of the band the one side that there is decides. */
const hasShoulders = (offDb: Float64Array, start: number, end: number): boolean =>
  isShoulder(offDb[start - 1], offDb[start]) && isShoulder(offDb[end + 1], offDb[end]);

const isShoulder = (besideDb: number | undefined, edgeDb: number | undefined): boolean =>
  besideDb === undefined || besideDb / (edgeDb ?? 1) >= SHOULDER;

/** Neighbours at one level of their own, not so far down that nothing is carried there. */
function isBlock(offDb: Float64Array, start: number, end: number): boolean {
  if (end - start + 1 < BLOCK_ROWS) return false;
  let highDb = -Infinity;
  let lowDb = Infinity;
  for (let i = start; i <= end; i++) {
    highDb = Math.max(highDb, offDb[i] ?? 0);
    lowDb = Math.min(lowDb, offDb[i] ?? 0);
  }
  return highDb - lowDb <= BLOCK_SPREAD_DB && Math.max(highDb, -lowDb) < BLOCK_DB;
}

/** One of three or more carriers of a named kind that are, as a kind, carried about this far off. */
function isAtLevelOfItsKind(
  rows: readonly UsableRow[],
  offDb: Float64Array,
  i: number,
  known: Map<SignalKind, number | null>,
): boolean {
  const kind = rows[i]?.kind;
  if (kind === undefined) return false;
  let middleDb = known.get(kind);
  if (middleDb === undefined) {
    middleDb = middleOfKind(rows, offDb, kind);
    known.set(kind, middleDb);
  }
  return (
    middleDb !== null &&
    Math.abs(middleDb) < BLOCK_DB &&
    Math.abs((offDb[i] ?? 0) - middleDb) <= BLOCK_SPREAD_DB
  );
}

/** How far off a kind is carried as a whole; null where it is too few rows, or all of them. */
function middleOfKind(rows: readonly UsableRow[], offDb: Float64Array, kind: SignalKind): number | null {
  const ofKind = offDb.filter((_, j) => rows[j]?.kind === kind);
  return ofKind.length < BLOCK_ROWS || ofKind.length === rows.length ? null : medianInPlace(ofKind);
}
