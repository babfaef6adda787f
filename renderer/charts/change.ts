import type { ChartRow } from './rows.ts';

/** How two sweeps of one port are shown: over each other, side by side, or the one becoming the other. */
export type PairWay = 'over' | 'beside' | 'moving';
export const pairWays: readonly PairWay[] = ['over', 'beside', 'moving'];

/** A start and an end that the eye can follow: slow, fast, slow. */
export const eased = (share: number): number => {
  const inside = Math.min(1, Math.max(0, share));
  return inside * inside * (3 - 2 * inside);
};

/** The sweep on its way from before (0) to after (1): only what both of them read moves. Display only, nothing was measured so. */
export const onTheWay = (rows: readonly ChartRow[], share: number): readonly ChartRow[] =>
  rows.map((row) => {
    const { foundDbmv, shownDbmv, targetDbmv } = row;
    if (foundDbmv === null || shownDbmv === null) return row;
    const at = foundDbmv + (shownDbmv - foundDbmv) * share;
    return { ...row, shownDbmv: at, deviationDb: targetDbmv === null ? null : at - targetDbmv };
  });

/** Each of the two for itself: what was before as the shown one, and what is now without it. */
export const asBefore = (rows: readonly ChartRow[]): readonly ChartRow[] =>
  rows.map((row) => ({
    ...row,
    shownDbmv: row.foundDbmv,
    foundDbmv: null,
    predictedDbmv: null,
    predictedDeviationDb: null,
    merDb: null,
    silent: false,
    deviationDb: row.foundDbmv === null || row.targetDbmv === null ? null : row.foundDbmv - row.targetDbmv,
  }));
export const asAfter = (rows: readonly ChartRow[]): readonly ChartRow[] =>
  rows.map((row) => ({ ...row, foundDbmv: null }));
