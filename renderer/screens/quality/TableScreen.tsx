import { useMemo } from 'react';
import { Input, Label, SearchField } from 'react-aria-components';
import { attentionLists } from '../../../core/drift/attention.ts';
import { whole } from '../../format.ts';
import { PressButton } from '../../parts/PressButton.tsx';
import { Quantity } from '../../parts/Quantity.tsx';
import { Segments } from '../../parts/Segments.tsx';
import { listCounts, listWords, recordRows, shownRows } from '../../state/quality-rows.ts';
import type { Records } from '../../state/quality-slice.ts';
import {
  selectRecords,
  selectRecordsList,
  selectRecordsSort,
  selectRecordsText,
  selectSettings,
  selectVisitEveryMonths,
} from '../../state/select.ts';
import { useActions, useBench, useSelected, useWorkbench } from '../../state/use-workbench.ts';
import { RecordsBar } from './RecordsBar.tsx';
import { RecordsTable } from './RecordsTable.tsx';

/** What is still being read, or why it is not. */
function readingWords({ reading, stations, trends, total }: Records): string {
  switch (reading.at) {
    case 'stations':
      return total === null
        ? 'Reading the stations.'
        : `Reading: ${whole(stations.length)} of ${whole(total)} stations.`;
    case 'trends':
      return `Looking through histories: ${whole(Object.keys(trends).length)} of ${whole(stations.length)} stations.`;
    case 'failed':
      return `Not everything could be read. ${reading.help}`;
    case 'done':
      return '';
  }
}

/** The table of every station, with what to look at first said over it. */
export function TableScreen() {
  const records = useSelected(selectRecords);
  const list = useSelected(selectRecordsList);
  const text = useSelected(selectRecordsText);
  const sort = useSelected(selectRecordsSort);
  const everyMonths = useSelected(selectVisitEveryMonths);
  const { settings } = useSelected(selectSettings);
  const workbench = useWorkbench();
  const { now } = useBench();
  const { listChosen, textTyped, recordsWent } = useActions();
  const nowMs = Date.parse(now());
  // A minute is near enough for what is due: the rows stay the same objects while one looks at them.
  const minute = Math.floor(nowMs / 60_000) * 60_000;
  const rows = useMemo(() => recordRows(records, minute, everyMonths), [records, minute, everyMonths]);
  const counts = useMemo(() => listCounts(rows), [rows]);
  const shown = useMemo(() => shownRows(rows, list, text, sort), [rows, list, text, sort]);
  const said = [
    ...(counts.drifting > 0 ? [`${whole(counts.drifting)} drifting`] : []),
    ...(counts.due > 0 ? [`${whole(counts.due)} due`] : []),
  ].join(', ');
  return (
    <div className="records">
      <RecordsBar name="All records" backTo="the stations" onBack={workbench.closeRecords}>
        <PressButton onPress={() => recordsWent('period')}>Visits of a period</PressButton>
      </RecordsBar>
      <main className="records__main">
        <div className="records__head">
          <h1>
            {`${whole(rows.length)} ${rows.length === 1 ? 'station' : 'stations'}`}
            {said === '' ? '' : `: ${said}`}
          </h1>
          <p className="records__reading" role="status">
            {readingWords(records)}
          </p>
        </div>
        <div className="records__ask">
          <Segments
            label="Which stations"
            options={[
              { key: 'all' as const, text: 'All' },
              ...attentionLists.map((key) => ({ key, text: `${listWords[key]} ${whole(counts[key])}` })),
            ]}
            chosen={list}
            onChoose={listChosen}
          />
          <SearchField className="field field--line records__find" value={text} onChange={textTyped}>
            <Label>Find</Label>
            <Input placeholder="name or finding" />
          </SearchField>
          {list === 'due' && (
            <div className="records__due">
              <Quantity
                name="Due after"
                unit="months without a visit"
                value={everyMonths}
                from={1}
                to={120}
                step={1}
                digits={0}
                onChange={(visitEveryMonths) => workbench.changeSettings({ ...settings, visitEveryMonths })}
              />
              <p className="quiet">Once a year is common practice, without a published source.</p>
            </div>
          )}
        </div>
        {shown.length > 0 ? (
          <RecordsTable rows={shown} nowMs={minute} />
        ) : (
          <NoRows records={records} isFiltered={text.trim() !== ''} />
        )}
      </main>
    </div>
  );
}

type NoRowsProps = Readonly<{ records: Records; isFiltered: boolean }>;

/** An empty table says why, and what to do. */
function NoRows({ records, isFiltered }: NoRowsProps) {
  const { textTyped, listChosen } = useActions();
  const { closeRecords } = useWorkbench();
  if (records.reading.at === 'failed')
    return (
      <div className="records__empty">
        <h2>The records could not be read.</h2>
        <p>{records.reading.help}</p>
      </div>
    );
  if (records.total === null) return <div className="records__empty" aria-busy="true" />;
  if (records.total === 0)
    return (
      <div className="records__empty">
        <h2>No station is in the archive yet.</h2>
        <p>Open a station file, or try the invented network; then come back here.</p>
        <PressButton rank="do" size="visit" onPress={closeRecords}>
          To the stations
        </PressButton>
      </div>
    );
  return (
    <div className="records__empty">
      <h2>{isFiltered ? 'No station has these words.' : 'No station is on this list.'}</h2>
      <PressButton
        size="visit"
        onPress={() => {
          textTyped('');
          listChosen('all');
        }}
      >
        Show all
      </PressButton>
    </div>
  );
}
