import { useMemo } from 'react';
import { Button, GridList, GridListItem, ListLayout, Virtualizer } from 'react-aria-components';
import { mhz, oneDecimal, signedDecimal } from '../../format.ts';
import { howReserveKept, howTrendWords } from '../../how/records.ts';
import { howStationWorst } from '../../how/stations.ts';
import { HowText } from '../../parts/HowText.tsx';
import { Mark } from '../../parts/Mark.tsx';
import { OUT_OF_SERVICE } from '../../parts/service-words.ts';
import { TrendLine } from '../../parts/TrendLine.tsx';
import type { RecordRow } from '../../state/quality-rows.ts';
import type { SortBy } from '../../state/quality-slice.ts';
import { ageWords } from '../../state/quality-words.ts';
import { selectRecordsList, selectRecordsSort, selectTextSize } from '../../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../../state/use-workbench.ts';

const columns: readonly Readonly<{ key: SortBy; name: string; isNumber: boolean }>[] = [
  { key: 'name', name: 'Station', isNumber: false },
  { key: 'standing', name: 'Standing', isNumber: false },
  { key: 'worst', name: 'Worst, dB', isNumber: true },
  { key: 'reserve', name: 'Reserve, dB', isNumber: true },
  { key: 'visit', name: 'Last visit', isNumber: true },
  { key: 'trend', name: 'Trend', isNumber: false },
];

const verdictWords = { pass: 'in order', fail: 'out', undecided: 'undecided' } as const;

/** A row's height in rem: 44 px for a finger, and room for two small lines. */
const ROW_REM = 3.5;

export type RecordsTableProps = Readonly<{ rows: readonly RecordRow[]; nowMs: number }>;

/** Every station in a line, of which only those in sight are drawn; opening one shows its history. */
export function RecordsTable({ rows, nowMs }: RecordsTableProps) {
  const { openHistory } = useWorkbench();
  const textSize = useSelected(selectTextSize);
  const list = useSelected(selectRecordsList);
  const { by, isDown } = useSelected(selectRecordsSort);
  const layout = useMemo(
    () => ({ rowSize: Math.round((ROW_REM * 16 * Number(textSize)) / 100) }),
    [textSize],
  );
  return (
    <div className="records-table">
      <Heads />
      {/* Another list or order begins at its top again. */}
      <Virtualizer key={`${list} ${by} ${isDown}`} layout={ListLayout} layoutOptions={layout}>
        <GridList
          className="records-table__rows"
          aria-label="All stations; Enter opens a station's history"
          items={rows}
          dependencies={[nowMs]}
          selectionMode="none"
          onAction={(key) => openHistory(String(key), null)}
        >
          {(row) => (
            <GridListItem id={row.station.stationId} textValue={row.station.name} className="records-row">
              <Cells row={row} nowMs={nowMs} />
            </GridListItem>
          )}
        </GridList>
      </Virtualizer>
    </div>
  );
}

/** The headings, each of which sorts. */
function Heads() {
  const sort = useSelected(selectRecordsSort);
  const { sortedBy } = useActions();
  return (
    <fieldset className="records-heads">
      <legend className="unseen">Sorted by</legend>
      {columns.map(({ key, name, isNumber }) => {
        const isBy = sort.by === key;
        return (
          <Button
            key={key}
            className={`records-head${isNumber ? ' records-head--number' : ''}`}
            aria-label={isBy ? `${name}, sorted ${sort.isDown ? 'down' : 'up'}` : `Sort by ${name}`}
            onPress={() => sortedBy(key)}
          >
            {name}
            <span className="records-head__way">{isBy ? (sort.isDown ? '\u2193' : '\u2191') : ''}</span>
          </Button>
        );
      })}
    </fieldset>
  );
}

function standingWords({ outOfService, standing }: RecordRow['station']): string {
  if (outOfService !== undefined) return OUT_OF_SERVICE;
  if (standing === null) return 'not read yet';
  return standing.verdict === null ? 'not judged' : verdictWords[standing.verdict];
}

function Cells({ row, nowMs }: Readonly<{ row: RecordRow; nowMs: number }>) {
  const { station, trend } = row;
  const { standing, reserve, lastVisitAt } = station;
  const isAway = station.outOfService !== undefined;
  const verdict = isAway ? null : (standing?.verdict ?? null);
  const drift = trend?.drift ?? null;
  return (
    <>
      <span className="records-row__name">{station.name}</span>
      <span className={`records-row__standing station-row__verdict--${verdict ?? 'unknown'}`}>
        <Mark verdict={verdict ?? 'unknown'} pointing={(standing?.worstDb ?? 0) > 0 ? 'up' : 'down'} />
        {standingWords(station)}
      </span>
      <span className="records-row__number">
        {standing === null || standing.worstDb === null ? (
          <small>{'\u2013'}</small>
        ) : (
          <>
            <strong>
              <HowText
                how={howStationWorst(station.name, standing, standing.worstDb)}
                text={signedDecimal(standing.worstDb)}
              />
            </strong>
            <small>{standing.worstMhz === null ? '' : mhz(standing.worstMhz)}</small>
          </>
        )}
      </span>
      <span className="records-row__number">
        {reserve === null ? (
          <small>{'\u2013'}</small>
        ) : (
          <>
            <strong>
              <HowText
                how={howReserveKept(station.name, reserve.leftDb, reserve.askedDb)}
                text={oneDecimal(reserve.leftDb)}
              />
            </strong>
            <small>{`of ${oneDecimal(reserve.askedDb)}`}</small>
          </>
        )}
      </span>
      <span className="records-row__number">
        {station.openVisit
          ? 'open now'
          : lastVisitAt === null
            ? 'never'
            : ageWords(Date.parse(lastVisitAt), nowMs)}
        {row.lists.includes('due') && <small className="records-row__due">due</small>}
      </span>
      <span className={`records-row__trend records-row__trend--${drift?.state ?? 'none'}`}>
        <TrendLine values={drift?.line ?? []} />
        <span>
          {trend === null ? (
            ''
          ) : drift === null ? (
            station.sweepCount === 0 ? (
              'no sweep yet'
            ) : (
              'no sweep as found or as left'
            )
          ) : drift.perYearDb === null ? (
            drift.words
          ) : (
            <HowText how={howTrendWords(station.name, drift)} text={drift.words} />
          )}
        </span>
      </span>
    </>
  );
}
