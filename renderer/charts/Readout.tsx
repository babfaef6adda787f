import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { mhz } from '../format.ts';
import { Crosshair } from './Crosshair.tsx';
import { cursorValues, type SeriesNames } from './cursor-values.ts';
import { levelOf } from './end-labels.ts';
import type { ChartRow } from './rows.ts';
import type { PlotBox } from './scale.ts';

export type ReadoutProps = Readonly<{
  row: ChartRow;
  rows: readonly ChartRow[];
  plot: PlotBox;
  /** The foot of the crosshair, under the strip. */
  bottom: number;
  x: (frequencyMhz: number) => number;
  y: (levelDbmv: number) => number;
  names: SeriesNames;
  unit: LevelUnitName;
  /** False where a drawing beside this one has the card. */
  withCard: boolean;
}>;

const shapes = { shown: 'round', before: 'square' } as const;
const lines = ['shown', 'before', 'predicted', 'design'] as const;

/** The crosshair of a sweep: every value of one channel. */
export function Readout({ row, rows, plot, bottom, x, y, names, unit, withCard }: ReadoutProps) {
  const values = cursorValues(row, names, unit);
  return (
    <Crosshair
      at={x(row.frequencyMhz)}
      plot={plot}
      bottom={bottom}
      where={mhz(row.frequencyMhz)}
      lines={values}
      marks={values.flatMap(({ key, levelDbmv }) =>
        levelDbmv !== null && (key === 'shown' || key === 'before')
          ? [{ key, y: y(levelDbmv), shape: shapes[key] }]
          : [],
      )}
      behind={rows.flatMap((other) =>
        lines.flatMap((key) => {
          const levelDbmv = levelOf(other, key);
          return levelDbmv === null ? [] : [{ x: x(other.frequencyMhz), y: y(levelDbmv) }];
        }),
      )}
      withCard={withCard}
    />
  );
}
