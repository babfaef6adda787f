import { useMemo } from 'react';
import { Button, DropZone, type DropZoneProps, ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { temperature } from '../format.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectDialog, selectRun, selectSheet, selectTemperatureUnit } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { viewSheet } from '../state/sheet-view.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { FindingSide } from './FindingSide.tsx';
import { MeterChip } from './MeterChip.tsx';
import { Picture } from './Picture.tsx';
import { SheetDialogs } from './SheetDialogs.tsx';
import { SheetLog } from './SheetLog.tsx';
import { SheetPath } from './SheetPath.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';

/** One station: its path, its picture, what to do about it, and what was done. */
export function StationScreen() {
  const sheet = useSelected(selectSheet);
  const { leaveStation } = useWorkbench();
  if (sheet.at === 'open') return <OpenStation open={sheet} />;
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

function OpenStation({ open }: Readonly<{ open: OpenSheet }>) {
  const run = useSelected(selectRun);
  const dialog = useSelected(selectDialog);
  const { dialogOpened, noticed } = useActions();
  const { sheet, portName, chosenSweepId, sweeps, picked } = open;
  const view = useMemo(
    () => viewSheet(sheet, portName, chosenSweepId, sweeps, picked),
    [sheet, portName, chosenSweepId, sweeps, picked],
  );
  const runHere =
    run.at !== 'idle' && run.plan.stationId === sheet.station.id && run.plan.portName === portName
      ? run
      : null;
  const drop: NonNullable<DropZoneProps['onDrop']> = async ({ items }) => {
    const file = items.find((item) => item.kind === 'file');
    if (file === undefined || (runHere !== null && runHere.at !== 'cut-short')) return;
    if (sheet.openVisit === null) {
      noticed({ tone: 'problem', text: `${file.name} was not taken in.`, help: 'Begin the visit first.' });
      return;
    }
    const text = await (await file.getFile()).text();
    dialogOpened({ open: 'import-sweep', fileName: file.name, text });
  };
  if (view === null) return null;
  return (
    <DropZone className="sheet" aria-label="Station sheet; a sweep file may be dropped here" onDrop={drop}>
      <SheetHead open={open} />
      <main className="sheet__main">
        <SheetPath sheet={sheet} view={view} locked={runHere !== null && runHere.at !== 'cut-short'} />
        <Picture view={view} sheet={sheet} run={runHere} />
      </main>
      <aside className="side" aria-label="Finding and what to do">
        <FindingSide view={view} sheet={sheet} run={runHere} />
      </aside>
      <SheetLog open={open} view={view} />
      {dialog.open !== 'none' && <SheetDialogs dialog={dialog} sheet={sheet} view={view} />}
    </DropZone>
  );
}

function SheetHead({ open }: Readonly<{ open: OpenSheet }>) {
  const unit = useSelected(selectTemperatureUnit);
  const run = useSelected(selectRun);
  const { leaveStation } = useWorkbench();
  const { portChosen, dialogOpened } = useActions();
  const { station, openVisit } = open.sheet;
  const reading = run.at === 'starting' || run.at === 'running' || run.at === 'stopping';
  return (
    <header className="bar">
      <Button className="bar__back" onPress={leaveStation} aria-label="Back to the stations">
        <Glyph name="back" />
      </Button>
      <p className="bar__place">
        <span className="bar__name">{station.name}</span>
      </p>
      {station.ports.length > 1 && (
        <ToggleButtonGroup
          className="ports"
          aria-label="Port"
          selectionMode="single"
          disallowEmptySelection
          isDisabled={reading}
          selectedKeys={[open.portName]}
          onSelectionChange={(keys) => {
            const [key] = keys;
            if (key !== undefined) portChosen(String(key));
          }}
        >
          {station.ports.map(({ name }) => (
            <ToggleButton key={name} id={name} className="ports__port">
              {name}
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
      )}
      <div className="bar__end">
        {openVisit !== null && (
          <Button
            className="visit-chip"
            onPress={() => dialogOpened({ open: 'end-visit' })}
            isDisabled={reading}
            aria-label="A visit is open. End the visit."
          >
            <strong>
              {openVisit.ambientC === null
                ? 'Visit open'
                : `${temperature(openVisit.ambientC, unit)} ambient`}
            </strong>
            <small>end the visit</small>
          </Button>
        )}
        <MeterChip />
        <ThemeSwitch />
      </div>
    </header>
  );
}
