import type { Purpose, StationSheet } from '../../core/bridge/records.ts';
import { capital, day } from '../format.ts';
import { bandOf, readPlans } from '../state/read-plans.ts';
import type { Run } from '../state/run-slice.ts';
import { selectCare } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useBench, useSelected } from '../state/use-workbench.ts';
import { CutShort } from './CutShort.tsx';
import { Finding } from './Finding.tsx';
import { ReadingPanel } from './ReadingPanel.tsx';
import { ReadPanel } from './ReadPanel.tsx';

export type FindingSideProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  run: Exclude<Run, { at: 'idle' }> | null;
}>;

/** The right-hand side: one state at a time, and in each at most one thing to do. */
export function FindingSide({ view, sheet, run }: FindingSideProps) {
  const { now } = useBench();
  const held = useSelected(selectCare)?.held ?? [];
  const { shown, port } = view;
  const visitIsOpen = sheet.openVisit !== null;
  const plans = readPlans(bandOf(sheet.station, port.name), shown?.rows ?? null, port.direction);
  const purpose: Purpose = view.changedSince !== null || view.before !== null ? 'as-left' : 'as-found';

  if (run !== null && run.at !== 'cut-short') return <ReadingPanel run={run} />;
  const cut =
    run !== null
      ? {
          sweepId: run.sweepId,
          readingCount: run.readingCount,
          plannedCount: run.plan.plannedCount,
          reason: run.reason,
          purpose: run.plan.purpose,
        }
      : shown !== null && view.isNewest && view.ofThisVisit && shown.summary.state === 'partial'
        ? { ...shown.summary, reason: shown.summary.endReason ?? '' }
        : null;
  if (cut !== null)
    return (
      <CutShort
        {...cut}
        inMemory={held.find(({ sweepId }) => sweepId === cut.sweepId)?.inMemory ?? 0}
        portName={port.name}
        frequenciesMhz={plansFrequencies(view, plans)}
      />
    );
  if (shown === null || (visitIsOpen && view.isNewest && !view.ofThisVisit))
    return (
      <ReadPanel
        key={`${port.name} ${visitIsOpen}`}
        portName={port.name}
        purpose="as-found"
        plans={plans}
        visitNote={
          shown === null
            ? `${capital(port.name)}, never read`
            : `Last read ${day(shown.summary.startedAt, now())}`
        }
      />
    );
  return <Finding view={view} sheet={sheet} rereadPurpose={purpose} />;
}

/** After a sweep that was cut short, what it had been going to read is the raster nearest to it. */
function plansFrequencies(view: SheetView, plans: ReturnType<typeof readPlans>): readonly number[] {
  const planned = view.shown?.summary.plannedCount;
  const same = plans.find(({ frequenciesMhz }) => frequenciesMhz.length === planned);
  return (same ?? plans[0])?.frequenciesMhz ?? [];
}
