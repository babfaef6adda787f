import { useMemo } from 'react';
import type { Purpose, StationSheet } from '../../core/bridge/records.ts';
import { rowsAtPort } from '../../core/line/port-level.ts';
import type { EndLabel } from '../charts/end-labels.ts';
import { LiveTrace } from '../charts/LiveTrace.tsx';
import { chartRows } from '../charts/rows.ts';
import { SweepPicture } from '../charts/SweepPicture.tsx';
import { SweepTable } from '../charts/SweepTable.tsx';
import { moment } from '../format.ts';
import { Guard } from '../parts/Guard.tsx';
import { nearestOffsetDb } from '../state/line-up-draft.ts';
import { predictionOf } from '../state/prediction.ts';
import { bandOf } from '../state/read-plans.ts';
import type { Run } from '../state/run-slice.ts';
import { selectFace, selectLevelUnit } from '../state/select.ts';
import type { SheetView } from '../state/sheet-view.ts';
import { useBench, useSelected } from '../state/use-workbench.ts';

export type PictureProps = Readonly<{
  view: SheetView;
  sheet: StationSheet;
  run: Exclude<Run, { at: 'idle' }> | null;
}>;

export const purposeWords: Record<Purpose, string> = {
  'as-found': 'as found',
  'as-left': 'as left',
  check: 'check',
};
export const purposeInk = { 'as-found': 'found', 'as-left': 'left', check: 'check' } as const;

/** The running sweep, or the chosen one as drawing or as numbers, or the design alone with a place for a sweep. */
export function Picture({ view, sheet, run }: PictureProps) {
  const running = run !== null && run.at !== 'cut-short';
  if (running) return <Running view={view} sheet={sheet} run={run} />;
  return <Finished view={view} sheet={sheet} />;
}

function Running({ view, sheet, run }: PictureProps) {
  const { feed } = useBench();
  const unit = useSelected(selectLevelUnit);
  const lossDb = view.port.testPointLossDb;
  const source = useMemo(
    () => ({ rows: () => rowsAtPort(feed.readings(), lossDb), onFrame: feed.onFrame }),
    [feed, lossDb],
  );
  const lineUp = view.by.notes?.lineUp;
  const offsetDb = useMemo(() => nearestOffsetDb(lineUp ?? []), [lineUp]);
  const band = bandOf(sheet.station, view.port.name);
  const plan = run?.plan;
  return (
    <LiveTrace
      source={source}
      design={view.design}
      offsetDb={offsetDb}
      lowMhz={plan?.lowMhz ?? band?.lowMhz ?? 5}
      highMhz={plan?.highMhz ?? band?.highMhz ?? 1000}
      title={`The sweep of the ${view.port.name} as it is read`}
      unit={unit}
    />
  );
}

function Finished({ view, sheet }: Readonly<{ view: SheetView; sheet: StationSheet }>) {
  const face = useSelected(selectFace);
  const unit = useSelected(selectLevelUnit);
  const { shown, before, design, port, targets } = view;
  const prediction = useMemo(() => predictionOf(view, sheet), [view, sheet]);
  const rows = useMemo(
    () =>
      chartRows({
        design,
        shown: shown?.rows ?? [],
        found: before?.rows ?? null,
        predicted: prediction.rows,
        targets,
      }),
    [design, shown, before, prediction, targets],
  );
  const band = bandOf(sheet.station, port.name);
  if (shown === null && design === null)
    return (
      <div className="picture picture--empty">
        <p>
          {band === null
            ? `The station file gives the ${port.name} no design and no band. Put one into the file and open it once more, or take a sweep file in.`
            : `The ${port.name} has no design of its own: its sweep serves the stage input. Read it, and what is proposed is held to the limits of the stage.`}
        </p>
      </div>
    );
  const word = shown === null ? '' : purposeWords[shown.summary.purpose];
  const labels: EndLabel[] = [
    ...(design === null
      ? []
      : [{ key: 'design', text: `design ±${design.toleranceDb}`, ink: 'design' } as const]),
    ...(prediction.rows === null
      ? []
      : [{ key: 'predicted', text: 'predicted', ink: prediction.open ? 'predicted' : 'settled' } as const]),
    ...(before === null
      ? []
      : [{ key: 'before', text: purposeWords[before.summary.purpose], ink: 'before' } as const]),
    ...(shown === null
      ? []
      : [{ key: 'shown', text: word, ink: purposeInk[shown.summary.purpose] } as const]),
  ];
  const title = `Level over frequency, ${port.name}${word === '' ? '' : `, ${word}`}`;
  const table = (
    <SweepTable rows={rows} toleranceDb={design?.toleranceDb ?? null} title={title} unit={unit} />
  );
  if (face === 'table' && shown !== null) return table;
  return (
    <Guard fallback={table} resetKey={`${shown?.summary.sweepId} ${port.name}`}>
      <SweepPicture
        rows={rows}
        labels={labels}
        toleranceDb={design?.toleranceDb ?? null}
        worstMhz={view.standing?.worst.frequencyMhz ?? null}
        shownAs={shown === null ? 'found' : purposeInk[shown.summary.purpose]}
        names={{ shown: word, before: before === null ? '' : purposeWords[before.summary.purpose] }}
        predictionOpen={prediction.open}
        band={band}
        title={title}
        unit={unit}
        about={
          shown === null ? sheet.station.name : `${sheet.station.name}, ${moment(shown.summary.startedAt)}`
        }
      />
    </Guard>
  );
}
