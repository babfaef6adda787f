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
}>;

/**
 * Leaves out rows that are plainly not carriers at their level: said to be unlocked, or far off a line that the others
 * agree on. A tilt, a suck-out, a roll-off at an end of the band, a block or a kind of carriers at another level stay:
 * they are what the station does. Fewer than five rows, or a sweep in which more than a third would go, stay whole.
 *
 * Breakdown point: the line is a repeated median over all rows, so it stays with the carriers while fewer than half of
 * the rows (floor(n / 2) of n) are none, wherever they lie. Because no more than a third is ever left out, rows beyond
 * a third stay in and show; none of the good ones goes for them.
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
  const whole = { kept: locked, keptAt: lockedAt, excluded };
  const lowMhz = locked[0]?.frequencyMhz ?? 0;
  const highMhz = locked.at(-1)?.frequencyMhz ?? 0;
  if (locked.length < FEWEST_ROWS || lowMhz === highMhz) return whole;

  const position = positionsOf(locked, shape, lowMhz, highMhz);
  const levelDbmv = new Float64Array(locked.length);
  for (let i = 0; i < locked.length; i++) levelDbmv[i] = locked[i]?.levelDbmv ?? 0;
  if (allWithin(position, levelDbmv, NEAR_DB)) return whole;
  const line = robustLine(position, levelDbmv);
  const offDb = levelDbmv;
  const sizeDb = new Float64Array(offDb.length);
  for (let i = 0; i < offDb.length; i++) {
    const off = (levelDbmv[i] ?? 0) - (line.lowDbmv + line.tiltDb * (position[i] ?? 0));
    offDb[i] = off;
    sizeDb[i] = Math.abs(off);
  }
  const nearDb = Math.max(NEAR_DB, NEAR_SIGMAS * SIGMA_PER_MAD * medianInPlace(sizeDb));
  const far = farRows(locked, offDb, nearDb);
  if (far.size === 0 || far.size > locked.length / 3) return whole;
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
  };
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
