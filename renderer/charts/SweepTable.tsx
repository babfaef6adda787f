import { Cell, Column, Row, Table, TableBody, TableHeader } from 'react-aria-components';
import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { isWithinTolerance } from '../../core/line/deviation.ts';
import { bareLevel, bareMhz, levelWord, signedDecimal } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import type { ChartRow } from './rows.ts';

export type SweepTableProps = Readonly<{
  rows: readonly ChartRow[];
  toleranceDb: number | null;
  title: string;
  unit: LevelUnitName;
}>;

/** The sweep as numbers: what the chart shows, for reading out, for a screen reader, and where a chart can't be drawn. */
export function SweepTable({ rows, toleranceDb, title, unit }: SweepTableProps) {
  const listed = rows.filter((row) => row.shownDbmv !== null || row.silent);
  return (
    <div className="sweep-table">
      <Table aria-label={title} className="numbers" selectionMode="none">
        <TableHeader>
          <Column isRowHeader>MHz</Column>
          <Column>{`Level, ${levelWord(unit)}`}</Column>
          <Column>{`Design, ${levelWord(unit)}`}</Column>
          <Column>From design, dB</Column>
          <Column>Standing</Column>
        </TableHeader>
        <TableBody>
          {listed.map((row) => (
            <Row key={row.frequencyMhz} id={row.frequencyMhz}>
              <Cell>{bareMhz(row.frequencyMhz)}</Cell>
              <Cell>{row.shownDbmv === null ? 'no level' : bareLevel(row.shownDbmv, unit)}</Cell>
              <Cell>{row.targetDbmv === null ? '' : bareLevel(row.targetDbmv, unit)}</Cell>
              <Cell>{row.deviationDb === null ? '' : signedDecimal(row.deviationDb)}</Cell>
              <Cell>
                <Standing deviationDb={row.deviationDb} toleranceDb={toleranceDb} />
              </Cell>
            </Row>
          ))}
        </TableBody>
      </Table>
    </div>
  );
}

type StandingProps = Readonly<{ deviationDb: number | null; toleranceDb: number | null }>;

function Standing({ deviationDb, toleranceDb }: StandingProps) {
  if (deviationDb === null || toleranceDb === null) return null;
  if (isWithinTolerance(deviationDb, toleranceDb)) return 'inside';
  return (
    <strong className="numbers__out">
      <Mark verdict="fail" pointing={deviationDb < 0 ? 'down' : 'up'} /> {deviationDb < 0 ? 'low' : 'high'}
    </strong>
  );
}
