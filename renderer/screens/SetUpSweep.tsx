import { useEffect, useMemo, useRef, useState } from 'react';
import type { Purpose } from '../../core/bridge/records.ts';
import type { SetUpStep } from '../../core/set-up/steps.ts';
import { ToolsPlaceContext } from '../charts/tools-place.ts';
import { asWritten, capital } from '../format.ts';
import { Mark } from '../parts/Mark.tsx';
import { PlugInSwap } from '../parts/PlugInSwap.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { bandOf, readPlans } from '../state/read-plans.ts';
import { selectMeterIsReady, selectRun } from '../state/select.ts';
import { hasSweep, type SetUpView, sweepFor } from '../state/set-up-view.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { viewSheet } from '../state/sheet-view.ts';
import { useJudgedBy } from '../state/use-judged-by.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { Picture } from './Picture.tsx';
import { SetUpWords } from './SetUpWords.tsx';

export type SetUpSweepProps = Readonly<{
  open: OpenSheet;
  view: SetUpView;
  step: SetUpStep;
  onSkip: () => void;
}>;

const purposeOf = (step: SetUpStep): Purpose =>
  step.id === 'sweep-as-found' ? 'as-found' : step.id === 'sweep-as-left' ? 'as-left' : 'check';

/** A step that a sweep proves: as found, as left, or the rebalancing between. */
export function SetUpSweep({ open, view, step, onSkip }: SetUpSweepProps) {
  const { sheet, sweeps } = open;
  const { record } = view;
  const portName = record.plan.outputPort;
  const run = useSelected(selectRun);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { startSweep, stopSweep, fitParts, recordStep } = useWorkbench();
  const by = useJudgedBy(sheet.station.id);
  const shown = useMemo(
    () => viewSheet(sheet, portName, null, sweeps, null, by),
    [sheet, portName, sweeps, by],
  );
  const here =
    run.at !== 'idle' && run.plan.stationId === sheet.station.id && run.plan.portName === portName
      ? run
      : null;
  const reading = here !== null && here.at !== 'cut-short';
  const sweep = sweepFor(sheet, record, step);
  const read = sweep !== null && hasSweep(sweeps, sweep.sweepId);
  const fittedSince = shown !== null && shown.changedSince !== null;
  const choice = step.id === 'rebalance' && read && !fittedSince ? (shown?.choice ?? null) : null;
  const changes = choice?.changes ?? [];
  const isDone = read && !fittedSince && !reading && changes.length === 0;

  const [toolsPlace, setToolsPlace] = useState<HTMLElement | null>(null);
  const sent = useRef(false);
  useEffect(() => {
    if (!isDone || sweep === null || sent.current) return;
    sent.current = true;
    void recordStep({
      step: step.id,
      outcome: 'done',
      by: 'reading',
      reason: null,
      values: { sweepId: sweep.sweepId },
      liveId: null,
    }).then((kept) => {
      sent.current = kept;
    });
  }, [isDone, sweep, step, recordStep]);

  const begin = () => {
    const rows = shown?.shown?.rows ?? null;
    const plans = readPlans(bandOf(sheet.station, portName), rows);
    const plan = plans.find(({ key }) => key === 'as-last') ?? plans[0];
    if (plan !== undefined)
      void startSweep({ portName, purpose: purposeOf(step), frequenciesMhz: plan.frequenciesMhz });
  };
  const fitAndSweep = async () => {
    const { proposal, shown: from } = shown ?? { proposal: null, shown: null };
    if (choice === null || proposal === null || from === null) return;
    const fitted = await fitParts(choice.changes, {
      sweepId: from.summary.sweepId,
      values: choice.values,
      worstBeforeDb: proposal.before.worstDb,
      worstPredictedDb: choice.worstDb,
    });
    if (fitted) begin();
  };
  const asItIs = () =>
    recordStep({
      step: step.id,
      outcome: 'done',
      by: 'hand',
      reason: null,
      values: sweep === null ? {} : { sweepId: sweep.sweepId },
      liveId: null,
    });
  return (
    <>
      <SetUpWords view={view} step={step} tools={<div className="tools-place" ref={setToolsPlace} />} />
      <div className="set-up__picture">
        <ToolsPlaceContext value={toolsPlace}>
          {shown !== null && <Picture view={shown} sheet={sheet} run={here} />}
        </ToolsPlaceContext>
      </div>
      {here?.at === 'cut-short' && (
        <p className="said said--bad">
          <Mark verdict="fail" pointing="up" />
          <span>{capital(here.reason)}</span>
        </p>
      )}
      {changes.length > 0 && (
        <div className="do">
          <p className="do__lead">{asWritten(shown?.standing?.headline ?? '')}</p>
          <ol className="swaps swaps--many" aria-label="Parts to change">
            {changes.map((change) => (
              <PlugInSwap key={change.position} {...change} />
            ))}
          </ol>
        </div>
      )}
      <div className="set-up__acts">
        {reading ? (
          <PressButton size="visit" onPress={() => stopSweep()} isDisabled={here.at !== 'running'}>
            Stop
          </PressButton>
        ) : (
          <>
            <PressButton rank="quiet" onPress={onSkip}>
              Skip
            </PressButton>
            <span className="set-up__gap" />
            {changes.length > 0 ? (
              <>
                <PressButton size="visit" onPress={asItIs}>
                  Leave it so
                </PressButton>
                <PressButton rank="do" size="visit" onPress={fitAndSweep} autoFocus>
                  Parts fitted, sweep again
                </PressButton>
              </>
            ) : meterIsReady ? (
              <PressButton rank="do" size="visit" onPress={begin} isDisabled={isDone} autoFocus>
                {`Sweep ${portName}`}
              </PressButton>
            ) : (
              <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })} autoFocus>
                Choose a meter
              </PressButton>
            )}
          </>
        )}
      </div>
    </>
  );
}
