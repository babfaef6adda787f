import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel, bareMhz, levelWord } from '../format.ts';
import type { DrawnSweep, OverlaidRow } from './overlaid-values.ts';

export type OverlaidTableProps = Readonly<{
  rows: readonly OverlaidRow[];
  drawn: readonly DrawnSweep[];
  unit: LevelUnitName;
  title: string;
}>;

/** The sweeps as numbers, the newest in the first column. */
export function OverlaidTable({ rows, drawn, unit, title }: OverlaidTableProps) {
  const places = drawn.map((_, i) => drawn.length - 1 - i);
  return (
    <table className="numbers numbers--close">
      <caption className="unseen">{`${title}, ${levelWord(unit)}`}</caption>
      <thead>
        <tr>
          <th scope="col">MHz</th>
          {places.map((i) => (
            <th key={drawn[i]?.sweepId} scope="col">
              {drawn[i]?.label}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.map(({ frequencyMhz, levelsDbmv }) => (
          <tr key={frequencyMhz}>
            <th scope="row">{bareMhz(frequencyMhz)}</th>
            {places.map((i) => {
              const levelDbmv = levelsDbmv[i] ?? null;
              return (
                <td key={drawn[i]?.sweepId}>{levelDbmv === null ? '\u2013' : bareLevel(levelDbmv, unit)}</td>
              );
            })}
          </tr>
        ))}
      </tbody>
    </table>
  );
}
