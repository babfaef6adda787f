import { useEffect } from 'react';
import { selectSetUp } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { BeginForm } from './BeginForm.tsx';
import { BeginSetUp } from './BeginSetUp.tsx';
import { PlaceDialogs } from './PlaceDialogs.tsx';
import { SetUpSheet } from './SetUpSheet.tsx';
import { StationBar } from './StationBar.tsx';
import { StepsAhead } from './StepsAhead.tsx';

/** The set-up of a gain control, step by step; it needs a visit, because that is where it is kept. */
export function GainControlScreen({ open }: Readonly<{ open: OpenSheet }>) {
  const setUp = useSelected(selectSetUp);
  const { openSetUp, stopLive } = useWorkbench();
  const visitId = open.sheet.openVisit?.visitId ?? null;
  useEffect(() => {
    if (visitId !== null) void openSetUp(visitId);
  }, [visitId, openSetUp]);
  // Whoever goes elsewhere has the meter free again.
  useEffect(() => () => void stopLive(), [stopLive]);
  const here = setUp.at !== 'unknown' && setUp.visitId === visitId ? setUp : null;
  return (
    <div className={here?.at === 'begun' ? 'sheet set-up' : 'sheet set-up set-up--plan'}>
      <StationBar open={open} />
      {visitId === null ? (
        <NoVisit />
      ) : here === null ? (
        <main className="plain-page" aria-busy="true" />
      ) : here.at === 'none' ? (
        <BeginSetUp open={open} />
      ) : (
        <SetUpSheet key={here.record.setUpId} open={open} record={here.record} />
      )}
      <PlaceDialogs />
    </div>
  );
}

const NoVisit = () => (
  <>
    <main className="set-up__intro">
      <h1>Set up the gain control</h1>
      <p>
        So that the station holds its level in the hottest and in the coldest week without anybody coming
        back. Each step says what to do and what to watch, beside a live level; what a reading can prove is
        done by itself, and the rest is kept as you say it.
      </p>
      <StepsAhead kind="new-module" />
    </main>
    <aside className="side" aria-label="Begin the visit">
      <p className="lead">It is kept with a visit</p>
      <h1 className="begin__title">Before you open it</h1>
      <BeginForm shape="side" />
    </aside>
  </>
);
