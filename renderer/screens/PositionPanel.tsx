import { useState } from 'react';
import type { Position } from '../../core/files/station.ts';
import { countIn } from '../../core/files/truck-moves.ts';
import { capital, plugIn } from '../format.ts';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { ValueKeys } from '../parts/ValueKeys.tsx';
import { selectBusy, selectTruck } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

export type PositionPanelProps = Readonly<{ position: Position; inDb: number; proposedDb: number | null }>;

/** Says what is plugged in at one position. The archive keeps when it was changed and from what. */
export function PositionPanel({ position, inDb, proposedDb }: PositionPanelProps) {
  const busy = useSelected(selectBusy);
  const { truck } = useSelected(selectTruck);
  const { dialogOpened, dialogDone } = useActions();
  const { fitParts } = useWorkbench();
  const [valueDb, setValueDb] = useState(proposedDb ?? inDb);
  const note = async () => {
    if (await fitParts([{ position: position.name, from: inDb, to: valueDb }], null)) dialogDone('position');
  };
  return (
    <Panel title={`What is in the ${position.name}?`} isOpen onClose={() => dialogOpened({ open: 'none' })}>
      <ValueKeys
        label={`${capital(position.name)}, values of the kit in dB`}
        values={position.values}
        inDb={inDb}
        proposedDb={proposedDb}
        chosenDb={valueDb}
        onChoose={setValueDb}
        inTruck={truck === null ? null : (value) => countIn(truck, position, value)}
      />
      <DialogNotice />
      <div className="panel__end">
        <PressButton rank="do" size="visit" isDisabled={valueDb === inDb || busy === 'fit'} onPress={note}>
          {valueDb === inDb ? `${plugIn(inDb)} is in` : `${plugIn(valueDb)} is in now`}
        </PressButton>
      </div>
    </Panel>
  );
}
