import type { StationSheet } from '../../core/bridge/records.ts';
import { withPluggedIn } from '../../core/files/station.ts';
import type { SheetView } from '../state/sheet-view.ts';
import type { Dialog } from '../state/ui-slice.ts';
import { AmendSweep } from './AmendSweep.tsx';
import { BeginVisit } from './BeginVisit.tsx';
import { EndVisit } from './EndVisit.tsx';
import { ImportSweep } from './ImportSweep.tsx';
import { NotesPanel } from './NotesPanel.tsx';
import { OthersPanel } from './OthersPanel.tsx';
import { PositionPanel } from './PositionPanel.tsx';

/** Of a port without a design. */
const FULL_BAND = { lowMhz: 54, highMhz: 1002 } as const;

export type SheetDialogsProps = Readonly<{
  dialog: Exclude<Dialog, { open: 'none' }>;
  sheet: StationSheet;
  view: SheetView;
}>;

/** The dialogs of a sheet, one at a time; the meter chooser belongs to every screen and is not here. */
export function SheetDialogs({ dialog, sheet, view }: SheetDialogsProps) {
  switch (dialog.open) {
    case 'begin-visit':
      return <BeginVisit />;
    case 'end-visit':
      return <EndVisit />;
    case 'others':
      return view.proposal === null || view.design === null ? null : (
        <OthersPanel proposal={view.proposal} design={view.design} />
      );
    case 'import-sweep':
      return (
        <ImportSweep
          fileName={dialog.fileName}
          text={dialog.text}
          note={dialog.note}
          encoding={dialog.encoding}
          portName={view.port.name}
          testPointLossDb={view.port.testPointLossDb}
          purpose={view.ofThisVisit ? 'as-left' : 'as-found'}
        />
      );
    case 'position': {
      const position = sheet.station.positions.find(({ name }) => name === dialog.position);
      if (position === undefined) return null;
      const change = view.choice?.changes.find((one) => one.position === position.name);
      return (
        <PositionPanel
          station={withPluggedIn(sheet.station, sheet.pluggedIn)}
          band={view.design ?? FULL_BAND}
          position={position}
          inDb={sheet.pluggedIn[position.name] ?? position.installed}
          proposedDb={change?.to ?? null}
        />
      );
    }
    case 'amend-sweep': {
      const summary = view.shown?.summary;
      if (summary === undefined) return null;
      const visit = sheet.visits.find(({ visitId }) => visitId === summary.visitId);
      return (
        <AmendSweep
          summary={summary}
          ports={sheet.station.ports}
          operator={sheet.openVisit?.operator ?? visit?.operator ?? ''}
        />
      );
    }
    case 'line-up':
      return <NotesPanel face="line-up" view={view} />;
    case 'trims':
      return <NotesPanel face="trims" view={view} />;
    // These belong to every screen.
    case 'meter':
    case 'settings':
    case 'truck':
      return null;
  }
}
