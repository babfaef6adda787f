import type { StationSheet } from '../../core/bridge/records.ts';
import { pluggedAt } from '../../core/files/station.ts';
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
  if (choice !== null && shown !== null && choice.changes.length > 0) {
    const then = pluggedAt(station, shown.summary.pluggedIn);
    const rows = predictRows(shown.rows, station, port.name, then, { ...then, ...choice.values });
    return { rows, open: true };
  }
  // Nothing to fit but trims to turn: what they are to give, as core reckoned it.
  if (choice !== null && choice === view.proposal?.recommended && choice.withTrims !== undefined)
    return {
      rows: (view.proposal.predicted ?? []).map(({ frequencyMhz, levelDbmv }) => ({
        frequencyMhz,
        levelDbmv,
      })),
      open: true,
    };
  return { rows: expected, open: false };
}
