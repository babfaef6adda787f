import type { LineUpEntry } from '../channels/line-up.ts';
import { normalizeRows } from '../channels/normalize.ts';
import type { Design } from '../files/station.ts';
import { targetDbmv } from './design-line.ts';
import type { LevelRow } from './level-row.ts';
import { usableRows } from './usable-rows.ts';

/** What one row is compared with. `signal` names its kind: "analog", "256-QAM" ... */
export type RowTarget = Readonly<{ targetDbmv: number; deviationDb: number; signal: string }>;

/**
 * Each row beside the target of its own kind of signal: the design line, moved by what the kind is carried below it.
 * @param rows     MHz and dBmV at the port, any order
 * @param design   the port's design line
 * @param options  keepAll (false): compare every row with the design line itself; lineUp: what each channel carries
 * @returns  as many as rows, in their order; target (dBmV) and level - target (dB); null for a row without a level or
 *           frequency, or outside the design's range
 * @source   contract, section 3, target(f); design: each kind of signal against its own target
 */
export function rowTargets(
  rows: readonly LevelRow[],
  design: Design,
  options: Readonly<{
    keepAll?: boolean | undefined;
    lineUp?: readonly LineUpEntry[] | null | undefined;
  }> = {},
): (RowTarget | null)[] {
  const { usable } = usableRows(rows, design.lowMhz, design.highMhz);
  const normalized = normalizeRows(usable, options.lineUp ?? null);
  const targets = new Map<LevelRow, RowTarget>();
  usable.forEach((row, i) => {
    const offsetDb = options.keepAll === true ? 0 : (normalized.offsetDb[i] ?? 0);
    const wantedDbmv = targetDbmv(design, row.frequencyMhz) + offsetDb;
    targets.set(row, {
      targetDbmv: wantedDbmv,
      deviationDb: row.levelDbmv - wantedDbmv,
      signal: normalized.groups[normalized.groupAt[i] ?? 0]?.name ?? 'unknown kind',
    });
  });
  return rows.map((row) => targets.get(row) ?? null);
}
