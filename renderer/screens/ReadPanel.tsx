import { useState } from 'react';
import type { Purpose } from '../../core/bridge/records.ts';
import { PlanChoice, planWords } from '../parts/PlanChoice.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import type { ReadPlan } from '../state/read-plans.ts';
import { selectMeterIsReady, selectVisitIsOpen } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { BeginForm } from './BeginForm.tsx';
import { EachChannel } from './EachChannel.tsx';
import { SweepFileButton } from './SweepFileButton.tsx';

export type ReadPanelProps = Readonly<{
  portName: string;
  purpose: Purpose;
  plans: readonly ReadPlan[];
  visitNote: string;
}>;

/** Before the first sweep: one thing to do, and what it will read. */
export function ReadPanel({ portName, purpose, plans, visitNote }: ReadPanelProps) {
  const visitIsOpen = useSelected(selectVisitIsOpen);
  const meterIsReady = useSelected(selectMeterIsReady);
  const { dialogOpened } = useActions();
  const { startSweep } = useWorkbench();
  const [chosen, setChosen] = useState(plans[0]?.key ?? '');
  const plan = plans.find(({ key }) => key === chosen) ?? plans[0];

  if (!visitIsOpen)
    return (
      <>
        <p className="lead">{visitNote}</p>
        <h1 className="begin__title">Before you open it</h1>
        <BeginForm shape="side" />
      </>
    );
  return (
    <>
      <h1>{`Read the ${portName}`}</h1>
      {plan !== undefined && <p className="lead">{planWords(plan.frequenciesMhz)}</p>}
      <PlanChoice plans={plans} chosen={plan?.key ?? ''} onChoose={setChosen} />
      <EachChannel />
      <div className="acts">
        {meterIsReady ? (
          <PressButton
            rank="do"
            size="visit"
            isDisabled={plan === undefined}
            onPress={() =>
              plan !== undefined && startSweep({ portName, purpose, frequenciesMhz: plan.frequenciesMhz })
            }
            autoFocus
          >
            {`Read ${portName}`}
          </PressButton>
        ) : (
          <PressButton rank="do" size="visit" onPress={() => dialogOpened({ open: 'meter' })} autoFocus>
            Choose a meter
          </PressButton>
        )}
        <SweepFileButton />
      </div>
    </>
  );
}
