import { useState } from 'react';
import type { Position, Station } from '../../core/files/station.ts';
import { countIn } from '../../core/files/truck-moves.ts';
import { capital, plugIn } from '../format.ts';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { ValueKeys } from '../parts/ValueKeys.tsx';
import { selectBusy, selectTruck } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';
import { PositionCurve } from './PositionCurve.tsx';

export type PositionPanelProps = Readonly<{
  station: Station;
  position: Position;
  inDb: number;
  proposedDb: number | null;
  /** Of the design that it serves. */
  band: Readonly<{ lowMhz: number; highMhz: number }>;
}>;

/** Says what is plugged in at one position. The archive keeps when it was changed and from what. */
export function PositionPanel(props: PositionPanelProps) {
  const { dialogOpened } = useActions();
  return (
    <Panel
      title={`What is in the ${props.position.name}?`}
      isOpen
      onClose={() => dialogOpened({ open: 'none' })}
    >
      <PositionForm {...props} />
    </Panel>
  );
}

function PositionForm({ station, position, inDb, proposedDb, band }: PositionPanelProps) {
  const busy = useSelected(selectBusy);
  const { truck } = useSelected(selectTruck);
  const { dialogDone } = useActions();
  const { fitParts } = useWorkbench();
  const [chosenDb, setChosenDb] = useState<number | null>(null);
  const valueDb = chosenDb ?? proposedDb ?? inDb;
  const keep = () => fitParts([{ position: position.name, from: inDb, to: valueDb }], null);
  // What is proposed is nobody's word yet, and what is in already is no change.
  useUnsaved({ isChanged: chosenDb !== null && chosenDb !== inDb, trouble: null, keep });
  const note = async () => {
    if (await keep()) dialogDone('position');
  };
  return (
    <>
      <ValueKeys
        label={`${capital(position.name)}, values of the kit in dB`}
        values={position.values}
        inDb={inDb}
        proposedDb={proposedDb}
        chosenDb={valueDb}
        onChoose={setChosenDb}
        inTruck={truck === null ? null : (value) => countIn(truck, position, value)}
      />
      <PositionCurve station={station} position={position} valueDb={valueDb} band={band} />
      <DialogNotice />
      <div className="panel__end">
        <PressButton rank="do" size="visit" isDisabled={valueDb === inDb || busy === 'fit'} onPress={note}>
          {valueDb === inDb ? `${plugIn(inDb)} is in` : `${plugIn(valueDb)} is in now`}
        </PressButton>
      </div>
    </>
  );
}
