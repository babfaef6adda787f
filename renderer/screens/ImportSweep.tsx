import { useState } from 'react';
import { Input, Label, Radio, RadioGroup } from 'react-aria-components';
import type { Purpose } from '../../core/bridge/records.ts';
import { plugIn } from '../format.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectBusy } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';

export type ImportSweepProps = Readonly<{
  fileName: string;
  text: string;
  portName: string;
  testPointLossDb: number;
  purpose: Purpose;
}>;

/** The one question that a file can't answer: were its levels read at the test point, or are they the port's? */
export function ImportSweep({ fileName, text, portName, testPointLossDb, purpose }: ImportSweepProps) {
  const busy = useSelected(selectBusy);
  const { dialogOpened } = useActions();
  const { importSweep } = useWorkbench();
  const [where, setWhere] = useState<string>('port');
  const [lossDb, setLossDb] = useState(testPointLossDb);
  const take = () => importSweep({ fileName, text, purpose, testPointLossDb: where === 'port' ? 0 : lossDb });
  return (
    <Panel title={fileName} isOpen onClose={() => dialogOpened({ open: 'none' })}>
      <RadioGroup className="ways" value={where} onChange={setWhere}>
        <Label className="ways__label">{`Its levels are those of the ${portName}`}</Label>
        <Radio value="port" className="way">
          <span className="way__knob" />
          <span className="way__words">
            <strong>at the port itself</strong>
            <small>the test point is already added</small>
          </span>
        </Radio>
        <Radio value="test-point" className="way">
          <span className="way__knob" />
          <span className="way__words">
            <strong>at its test point</strong>
            <small>{`as the meter showed them, ${plugIn(lossDb)} dB below the port`}</small>
          </span>
        </Radio>
      </RadioGroup>
      {where === 'test-point' && (
        <NumberEntry className="field" value={lossDb} onChange={setLossDb} minValue={0} maxValue={60}>
          <Label>Loss of the test point, dB</Label>
          <Input />
        </NumberEntry>
      )}
      <DialogNotice />
      <div className="panel__end">
        <PressButton
          rank="do"
          size="visit"
          isDisabled={busy === 'import-sweep' || (where === 'test-point' && !Number.isFinite(lossDb))}
          onPress={take}
        >
          Take it into the visit
        </PressButton>
      </div>
    </Panel>
  );
}
