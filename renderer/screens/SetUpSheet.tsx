import { useMemo, useState } from 'react';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
import type { SetUpStepId } from '../../core/set-up/steps.ts';
import { capital } from '../format.ts';
import { howTarget } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { selectLevelUnit, selectMeterIsSimulated, selectTemperatureUnit } from '../state/select.ts';
import { type SetUpView, viewSetUp } from '../state/set-up-view.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useSelected } from '../state/use-workbench.ts';
import { type SetUpAsk, SetUpDialog } from './SetUpDialog.tsx';
import { SetUpDone } from './SetUpDone.tsx';
import { SetUpReading } from './SetUpReading.tsx';
import { SetUpRules } from './SetUpRules.tsx';
import { SetUpSteps } from './SetUpSteps.tsx';
import { SetUpSweep } from './SetUpSweep.tsx';
import { SimulatedHand } from './SimulatedHand.tsx';

export type SetUpSheetProps = Readonly<{ open: OpenSheet; record: SetUpRecord }>;

const rulesOf: Partial<Record<SetUpStepId, readonly ('reserve' | 'ambient' | 'range')[]>> = {
  'max-gain': ['reserve'],
  'back-off': ['reserve'],
  'range-test': ['range'],
  ambient: ['ambient'],
};

/** The sheet of steps: what is over, what is next with its live level, and what it is held against. */
export function SetUpSheet({ open, record }: SetUpSheetProps) {
  const { sheet } = open;
  const isSimulated = useSelected(selectMeterIsSimulated);
  const levelUnit = useSelected(selectLevelUnit);
  const temperatureUnit = useSelected(selectTemperatureUnit);
  const view = useMemo(
    () => viewSetUp(sheet, record, { levelUnit, temperatureUnit }),
    [sheet, record, levelUnit, temperatureUnit],
  );
  const [ask, setAsk] = useState<SetUpAsk | null>(null);
  const skip = () => view.step !== null && setAsk({ ask: 'skip', step: view.step.id });
  return (
    <>
      <SetUpSteps
        view={view}
        onAgain={(step) => setAsk({ ask: 'again', step })}
        onGiveUp={() => setAsk({ ask: 'give-up' })}
      />
      <main className="set-up__step">
        {view.step === null ? (
          <SetUpDone sheet={sheet} view={view} />
        ) : view.step.proof === 'sweep' ? (
          <SetUpSweep key={view.step.id} open={open} view={view} step={view.step} onSkip={skip} />
        ) : (
          <SetUpReading
            key={`${view.step.id} ${record.events.length}`}
            open={open}
            view={view}
            step={view.step}
            onSkip={skip}
          />
        )}
      </main>
      <aside className="side set-up__side" aria-label="What it is held against">
        <Against view={view} perDegreeC={sheet.station.span?.perDegreeC ?? null} />
        {isSimulated && <SimulatedHand station={sheet.station} />}
      </aside>
      {ask !== null && <SetUpDialog ask={ask} view={view} onClose={() => setAsk(null)} />}
    </>
  );
}

/** What the step in hand is held against, and on whose word. */
function Against({ view, perDegreeC }: Readonly<{ view: SetUpView; perDegreeC: number | null }>) {
  const unit = useSelected(selectLevelUnit);
  const { step, target } = view;
  const { topMhz, ambientC, spanDb } = view.record.plan;
  const only = step === null ? undefined : rulesOf[step.id];
  return (
    <section className="set-up__against">
      <p className="lead">{step === null ? 'It was held against' : 'Held against'}</p>
      {step !== null && !('why' in target) && (
        <p className="set-up__target">
          <HowText how={howTarget(target, unit)} text={`${capital(target.words)}.`} />
        </p>
      )}
      {(only !== undefined || step === null) && (
        <SetUpRules
          topMhz={topMhz}
          ambientC={ambientC}
          spanDb={spanDb}
          perDegreeC={perDegreeC}
          {...(only === undefined ? {} : { only })}
        />
      )}
      {step !== null && only === undefined && 'why' in target && (
        <p className="quiet">What you see. Your operator’s procedure rules where it says something else.</p>
      )}
    </section>
  );
}
