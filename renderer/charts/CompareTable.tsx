import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { ComparedRow } from '../../core/drift/compare-sweeps.ts';
import { bareLevel, bareMhz, levelWord, signedDecimal } from '../format.ts';
import type { TwoDays } from './compare-values.ts';

export type CompareTableProps = Readonly<{
  rows: readonly ComparedRow[];
  days: TwoDays;
  unit: LevelUnitName;
  title: string;
}>;

/** Two sweeps channel by channel. */
export function CompareTable({ rows, days, unit, title }: CompareTableProps) {
  const level = (dbmv: number | null) => (dbmv === null ? '\u2013' : bareLevel(dbmv, unit));
  const size = (db: number | null) => (db === null ? '\u2013' : signedDecimal(db));
  return (
    <table className="numbers numbers--close">
      <caption className="unseen">{title}</caption>
      <thead>
        <tr>
          <th scope="col">MHz</th>
          <th scope="col">{`${days[0]}, ${levelWord(unit)}`}</th>
          <th scope="col">{`${days[1]}, ${levelWord(unit)}`}</th>
          <th scope="col">Difference, dB</th>
          <th scope="col">By the weather, dB</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.frequencyMhz}>
            <th scope="row">{bareMhz(row.frequencyMhz)}</th>
            <td>{level(row.earlierDbmv)}</td>
            <td>{level(row.laterDbmv)}</td>
            <td>{size(row.differenceDb)}</td>
            <td>{size(row.weatherDb)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
