import type { StationSheet } from '../../core/bridge/records.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { predictRows } from '../../core/propose/predict.ts';
import type { SheetView } from './sheet-view.ts';

export type Prediction = Readonly<{
  rows: readonly LevelRow[] | null;
  /** True while it still has to be done or proved. */
  open: boolean;
}>;

/**
 * Which prediction belongs on the chart: of parts that are fitted and not yet read, else of a proposal that changes
 * something, else the one that the shown sweep was held against.
 */
export function predictionOf(view: SheetView, { station }: StationSheet): Prediction {
  const { changedSince, choice, shown, expected, port } = view;
  if (changedSince !== null) return { rows: changedSince, open: true };
  if (choice !== null && shown !== null && choice.changes.length > 0)
    return {
      rows: predictRows(shown.rows, station, port.name, shown.summary.pluggedIn, {
        ...shown.summary.pluggedIn,
        ...choice.values,
      }),
      open: true,
    };
  return { rows: expected, open: false };
}
