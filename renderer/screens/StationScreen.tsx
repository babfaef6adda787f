import { useMemo, useState } from 'react';
import { DropZone, type DropZoneProps } from 'react-aria-components';
import { ToolsPlaceContext } from '../charts/tools-place.ts';
import { PressButton } from '../parts/PressButton.tsx';
import { fileText } from '../read-file-text.ts';
import { selectDialog, selectPlace, selectRun, selectSheet } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { viewSheet } from '../state/sheet-view.ts';
import { useJudgedBy } from '../state/use-judged-by.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { FindingSide } from './FindingSide.tsx';
import { GainControlScreen } from './GainControlScreen.tsx';
import { PeakingScreen } from './PeakingScreen.tsx';
import { Picture } from './Picture.tsx';
import { PortTabs } from './PortTabs.tsx';
import { SeasonScreen } from './SeasonScreen.tsx';
import { SheetDialogs } from './SheetDialogs.tsx';
import { SheetLog } from './SheetLog.tsx';
import { SheetPath } from './SheetPath.tsx';
import { SpanScreen } from './SpanScreen.tsx';
import { StationBar } from './StationBar.tsx';

/** One station, at the place that was chosen. */
export function StationScreen() {
  const sheet = useSelected(selectSheet);
  const { leaveStation } = useWorkbench();
  const place = useSelected(selectPlace);
  if (sheet.at === 'open')
    switch (place) {
      case 'station':
        return <OpenStation open={sheet} />;
      case 'peaking':
        return <PeakingScreen open={sheet} />;
      case 'gain-control':
        return <GainControlScreen open={sheet} />;
      case 'season':
        return <SeasonScreen open={sheet} />;
      case 'span':
        return <SpanScreen open={sheet} />;
    }
  return (
    <main className="plain-page" aria-busy={sheet.at === 'opening'}>
      {sheet.at === 'failed' && (
        <>
          <h1>This station could not be opened.</h1>
          <p>{sheet.help}</p>
          <PressButton size="visit" onPress={leaveStation}>
            Back to the stations
          </PressButton>
        </>
      )}
    </main>
  );
}

/** The sheet: its path, its picture, what to do about it, and what was done. */
function OpenStation({ open }: Readonly<{ open: OpenSheet }>) {
  const run = useSelected(selectRun);
  const dialog = useSelected(selectDialog);
  const { designWent, dialogOpened, noticed, portChosen } = useActions();
  const { sheet, portName, chosenSweepId, sweeps, picked } = open;
  const by = useJudgedBy(sheet.station.id);
  const view = useMemo(
    () => viewSheet(sheet, portName, chosenSweepId, sweeps, picked, by),
    [sheet, portName, chosenSweepId, sweeps, picked, by],
  );
  const runHere =
    run.at !== 'idle' && run.plan.stationId === sheet.station.id && run.plan.portName === portName
      ? run
      : null;
  const isRead = runHere !== null && runHere.at !== 'cut-short';
  const drop: NonNullable<DropZoneProps['onDrop']> = async ({ items }) => {
    const file = items.find((item) => item.kind === 'file');
    if (file === undefined || isRead) return;
    if (sheet.openVisit === null) {
      noticed({ tone: 'problem', text: `${file.name} was not taken in.`, help: 'Begin the visit first.' });
      return;
    }
    const read = await fileText(await file.getFile());
    dialogOpened({ open: 'import-sweep', fileName: file.name, ...read });
  };
  const [toolsPlace, setToolsPlace] = useState<HTMLElement | null>(null);
  if (view === null) return null;
  return (
    <DropZone className="sheet" aria-label="Station sheet; a sweep file may be dropped here" onDrop={drop}>
      <StationBar open={open} />
      <main className="sheet__main">
        <div className="sheet__head">
          <PortTabs
            ports={sheet.station.ports}
            portName={portName}
            isDisabled={isRead}
            onChoose={portChosen}
          />
          <PressButton rank="quiet" isDisabled={isRead} onPress={() => designWent({ at: 'change' })}>
            Design
          </PressButton>
          <div className="tools-place" ref={setToolsPlace} />
        </div>
        <SheetPath sheet={sheet} view={view} locked={isRead} />
        <ToolsPlaceContext value={toolsPlace}>
          <Picture view={view} sheet={sheet} run={runHere} />
        </ToolsPlaceContext>
      </main>
      <aside className="side" aria-label="Finding and what to do">
        <FindingSide view={view} sheet={sheet} run={runHere} />
      </aside>
      <SheetLog open={open} view={view} />
      {dialog.open !== 'none' && <SheetDialogs dialog={dialog} sheet={sheet} view={view} />}
    </DropZone>
  );
}
