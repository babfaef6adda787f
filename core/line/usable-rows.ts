import type { LevelRow } from './level-row.ts';

/** A row that has both a frequency above 0 and a level. */
export type UsableRow = LevelRow & Readonly<{ frequencyMhz: number; levelDbmv: number }>;
/** A row left out, and why, in words. */
export type Excluded = Readonly<{ frequencyMhz: number | null; reason: string }>;
export type UsableRows = Readonly<{
  /** In rising frequency, so that no answer depends on the order of the file. */
  usable: readonly UsableRow[];
  excluded: readonly Excluded[];
  /** Rows with frequency and level, but outside low..high. */
  outsideCount: number;
}>;

const isUsable = (row: LevelRow): row is UsableRow =>
  row.frequencyMhz !== null &&
  row.levelDbmv !== null &&
  Number.isFinite(row.frequencyMhz) &&
  Number.isFinite(row.levelDbmv) &&
  row.frequencyMhz > 0;

function whyNot(row: LevelRow): string {
  if (row.reason !== undefined) return row.reason;
  if (row.unlocked === true) return 'not locked: the source itself says that this is no reading';
  if (row.frequencyMhz === null || !Number.isFinite(row.frequencyMhz)) return 'no single frequency is given';
  if (row.frequencyMhz <= 0) return 'frequency is not above 0';
  return 'no level is given';
}

/**
 * The rows that can be fitted: finite level, frequency above 0, inside low..high where given.
 * @param rows     levels in dBmV, frequencies in MHz, any order
 * @param lowMhz   MHz, or undefined for no lower end
 * @param highMhz  MHz, or undefined for no upper end
 * @returns  the usable rows in rising frequency, the others with the reason, and how many lie outside the two ends
 * @source   contract, section 3, "fit, exactly"
 */
export function usableRows(
  rows: readonly LevelRow[],
  lowMhz: number | undefined,
  highMhz: number | undefined,
): UsableRows {
  const usable: UsableRow[] = [];
  const excluded: Excluded[] = [];
  let outsideCount = 0;
  let isRising = true;
  let before: UsableRow | undefined;
  for (const row of rows) {
    if (!isUsable(row)) {
      const named = row.frequencyMhz !== null && Number.isFinite(row.frequencyMhz);
      excluded.push({ frequencyMhz: named ? row.frequencyMhz : null, reason: whyNot(row) });
    } else if (row.frequencyMhz >= (lowMhz ?? 0) && row.frequencyMhz <= (highMhz ?? Infinity)) {
      if (before !== undefined && byFrequency(before, row) > 0) isRising = false;
      usable.push(row);
      before = row;
    } else outsideCount++;
  }
  if (!isRising) usable.sort(byFrequency);
  return { usable, excluded, outsideCount };
}

const byFrequency = (a: UsableRow, b: UsableRow): number =>
  a.frequencyMhz - b.frequencyMhz || a.levelDbmv - b.levelDbmv;
