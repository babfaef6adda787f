import type { ChartRow } from './rows.ts';
import { apart, type Label, type PlotBox, type Span, xAt, yAt } from './scale.ts';

export type EndLabel = Readonly<{
  key: 'design' | 'predicted' | 'before' | 'shown';
  text: string;
  ink: string;
}>;

/** From one name's line to the next, CSS pixels. */
export const LABEL_GAP = 21;
/** Shorter of the right end than this, a line carries its name where it ends, not across an empty chart. */
const EARLY = 80;

export const levelOf = (row: ChartRow, key: EndLabel['key']): number | null => {
  switch (key) {
    case 'design':
      return row.targetDbmv;
    case 'predicted':
      return row.predictedDbmv;
    case 'before':
      return row.foundDbmv;
    case 'shown':
      return row.shownDbmv;
  }
};

type End = Readonly<{ atMhz: number; levelDbmv: number }>;

/** Where a line leaves the view: at its last channel, or where the right edge cuts it. */
export function endOf(rows: readonly ChartRow[], key: EndLabel['key'], view: Span): End | null {
  const known = rows.flatMap((row): End[] => {
    const levelDbmv = levelOf(row, key);
    return levelDbmv === null ? [] : [{ atMhz: row.frequencyMhz, levelDbmv }];
  });
  const last = known.findLast(({ atMhz }) => atMhz <= view.high);
  const next = known.find(({ atMhz }) => atMhz > view.high);
  if (last === undefined || next === undefined) return last ?? null;
  const share = (view.high - last.atMhz) / (next.atMhz - last.atMhz);
  return { atMhz: view.high, levelDbmv: last.levelDbmv + share * (next.levelDbmv - last.levelDbmv) };
}

/** The names of the lines beside their ends: none over another, none above or below the plot. */
export function placedEnds(
  rows: readonly ChartRow[],
  labels: readonly EndLabel[],
  plot: PlotBox,
  view: Span,
  levels: Span,
): readonly Label[] {
  const ends = labels.flatMap(({ key, text }): Label[] => {
    const end = endOf(rows, key, view);
    if (end === null || end.atMhz < view.low) return [];
    const x = xAt(plot, view, end.atMhz);
    const y = Math.min(plot.bottom, Math.max(plot.top, yAt(plot, levels, end.levelDbmv)));
    return [{ key, text, x: x < plot.right - EARLY ? x + 10 : plot.right + 12, y }];
  });
  return apart(ends, LABEL_GAP, plot);
}
