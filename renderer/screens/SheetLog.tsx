import { useMemo } from 'react';
import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { SweepSummary } from '../../core/bridge/records.ts';
import { capital, clock, counted, day } from '../format.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { type LogEntry, VisitLog } from '../parts/VisitLog.tsx';
import { calibrationWords } from '../state/calibration-words.ts';
import { fittedTogether } from '../state/fitted-together.ts';
import { counts, inputSummary, sweepsOf } from '../state/port-sweeps.ts';
import { selectFace, selectRun } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { portSweep, type SheetView } from '../state/sheet-view.ts';
import { turnedTogether } from '../state/turned.ts';
import { useActions, useBench, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { purposeInk, purposeWords } from './Picture.tsx';
import { ReportButtons } from './report/ReportButtons.tsx';
import { SweepMenu } from './SweepMenu.tsx';

export type SheetLogProps = Readonly<{ open: OpenSheet; view: SheetView }>;

/** What happened at this port, in order, with a day's mark before each visit and the fittings between the sweeps. */
function entriesOf(
  { sheet, portName, sweeps }: OpenSheet,
  view: SheetView,
  now: string,
): readonly LogEntry[] {
  const through = new Set(view.port.through);
  const moments: { at: string; visitId: string; entry: LogEntry }[] = [];
  for (const summary of sweepsOf(sheet, portName)) {
    const sweep = sweeps[summary.sweepId];
    moments.push({
      at: summary.startedAt,
      visitId: summary.visitId,
      entry: {
        kind: 'sweep',
        key: summary.sweepId,
        title: capital(purposeWords[summary.purpose]),
        about: `${clock(summary.startedAt)}, ${counted(summary.readingCount, 'channel', 'channels')}${summary.source === 'file' ? ', file' : ''}${summary.corrects === null ? '' : ', corrected'}`,
        partial: summary.state === 'partial',
        struck: struckWords(summary),
        calibrationPast:
          summary.meter !== null && calibrationWords(summary.meter, summary.startedAt).at === 'past',
        ink: purposeInk[summary.purpose],
        rows: sweep === undefined ? [] : portSweep(sweep).rows,
      },
    });
  }
  for (const { key, at, visitId, fittings } of fittedTogether(sheet.fittings)) {
    const changes = fittings.map(({ change }) => change).filter(({ position }) => through.has(position));
    if (changes.length > 0) moments.push({ at, visitId, entry: { kind: 'fitting', key, changes } });
  }
  for (const { key, at, visitId, turns } of turnedTogether(sheet.turns, portName))
    moments.push({ at, visitId, entry: { kind: 'turned', key, turns } });
  moments.sort((a, b) => (a.at < b.at ? -1 : 1));
  const visits = new Map(sheet.visits.map((visit) => [visit.visitId, visit]));
  return moments.flatMap(({ visitId, at, entry }, i) => {
    if (moments[i - 1]?.visitId === visitId) return [entry];
    const visit = visits.get(visitId);
    const mark: LogEntry = {
      kind: 'day',
      key: `day ${visitId} ${i}`,
      title: capital(day(at, now).replace(/ \d\d:\d\d$/, '')),
      about: visit?.operator ?? '',
    };
    return [mark, entry];
  });
}

const struckWords = ({ voided, correctedBy }: SweepSummary): string | null =>
  voided !== null ? `void: ${voided.reason}` : correctedBy !== null ? 'corrected since' : null;

const isFace = (key: unknown): key is 'chart' | 'table' => key === 'chart' || key === 'table';

export function SheetLog({ open, view }: SheetLogProps) {
  const { now } = useBench();
  const face = useSelected(selectFace);
  const run = useSelected(selectRun);
  const reading = run.at !== 'idle' && run.at !== 'cut-short';
  const { faceChosen, dialogOpened } = useActions();
  const { chooseSweep } = useWorkbench();
  const entries = useMemo(() => entriesOf(open, view, now()), [open, view, now]);
  const shownId = view.shown?.summary.sweepId ?? null;
  const wentIn = inputSummary(open.sheet, view.shown?.summary.visitId ?? null);
  const input = wentIn?.portName === view.port.name ? null : wentIn;
  return (
    <footer className="foot">
      {entries.length === 0 ? (
        <p className="foot__none">
          {!reading
            ? 'Nothing was read at this port yet. The first sweep, from the meter or from a file, begins its log.'
            : 'What is read is on disk as it comes.'}
        </p>
      ) : (
        <VisitLog entries={entries} chosenSweepId={shownId} onChoose={chooseSweep} />
      )}
      <div className="foot__end">
        <ToggleButtonGroup
          className="segments"
          aria-label="Show as"
          selectionMode="single"
          disallowEmptySelection
          selectedKeys={[face]}
          onSelectionChange={(keys) => {
            const [key] = keys;
            if (isFace(key)) faceChosen(key);
          }}
        >
          <ToggleButton id="chart">
            <Glyph name="chart" /> Chart
          </ToggleButton>
          <ToggleButton id="table">
            <Glyph name="table" /> Table
          </ToggleButton>
        </ToggleButtonGroup>
        {!reading && entries.length > 0 && (
          <PressButton onPress={() => dialogOpened({ open: 'line-up' })}>Line-up</PressButton>
        )}
        {!reading && view.shown !== null && (
          <ReportButtons
            stationId={open.sheet.station.id}
            stationName={open.sheet.station.name}
            visitId={view.shown.summary.visitId}
            at={view.shown.summary.startedAt}
          />
        )}
        {entries.length > 0 && (
          <SweepMenu
            sweepId={shownId}
            input={input}
            isFromFile={view.shown?.summary.source === 'file'}
            canAmend={view.shown !== null && counts(view.shown.summary)}
            reading={reading}
          />
        )}
      </div>
    </footer>
  );
}
