import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel, signedDecimal } from '../format.ts';
import type { How } from '../how/how.ts';
import { HowButton } from '../parts/HowButton.tsx';
import { Mark } from '../parts/Mark.tsx';

export type SeasonTableRow = Readonly<{
  key: string;
  at: string;
  highDbmv: number;
  lowDbmv: number;
  controlDb: number;
  standing: 'inside' | 'at its end' | 'low' | 'high';
  /** Only where a finger has room: rows are as close as text, so that the year is seen at once. */
  how: How | null;
}>;
export type SeasonTableProps = Readonly<{
  rows: readonly SeasonTableRow[];
  names: Readonly<{ low: string; high: string }>;
  unit: string;
  levelUnit: LevelUnitName;
  title: string;
}>;

/** The season as numbers, beside its drawing. */
export const SeasonTable = ({ rows, names, unit, levelUnit, title }: SeasonTableProps) => (
  <div className="season__table">
    <table className="numbers numbers--close">
      <caption className="unseen">{title}</caption>
      <thead>
        <tr>
          <th scope="col">{unit}</th>
          <th scope="col">{names.high}</th>
          <th scope="col">{names.low}</th>
          <th scope="col">control</th>
          <th scope="col">
            <span className="unseen">Standing</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.key}>
            <th scope="row">{row.at}</th>
            <td>
              {row.how === null ? (
                bareLevel(row.highDbmv, levelUnit)
              ) : (
                <HowButton
                  how={row.how}
                  label={`${bareLevel(row.highDbmv, levelUnit)} at ${names.high}, ${row.at} ${unit}`}
                  className="how-button--quiet"
                >
                  <span className="how-button__figure">{bareLevel(row.highDbmv, levelUnit)}</span>
                </HowButton>
              )}
            </td>
            <td>{bareLevel(row.lowDbmv, levelUnit)}</td>
            <td>{signedDecimal(row.controlDb)}</td>
            <td className="season__standing">
              {row.standing === 'inside' ? (
                <span className="unseen">inside</span>
              ) : row.standing === 'at its end' ? (
                <>
                  <Mark verdict="undecided" /> its end
                </>
              ) : (
                <strong className="numbers__out">
                  <Mark verdict="fail" pointing={row.standing === 'low' ? 'down' : 'up'} /> {row.standing}
                </strong>
              )}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
