import { useMemo, useState } from 'react';
import { Input, Label, Radio, RadioGroup, TextArea, TextField } from 'react-aria-components';
import type { Purpose } from '../../core/bridge/records.ts';
import { previewSweep } from '../../core/files/preview-sweep.ts';
import type { Told } from '../../core/files/sweep-csv.ts';
import { plugIn } from '../format.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { SweepPreviewView } from '../parts/SweepPreviewView.tsx';
import { selectBusy } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';
import { SweepQuestion } from './SweepQuestion.tsx';

export type ImportSweepProps = Readonly<{
  fileName: string;
  text: string;
  portName: string;
  testPointLossDb: number;
  purpose: Purpose;
}>;

/**
 * A file or a paste before it is taken: what was understood of it, what makes it certain where it is not, and the one
 * question that no file answers: were its levels read at the test point, or are they the port's?
 */
export function ImportSweep({ fileName, text: given, portName, testPointLossDb, purpose }: ImportSweepProps) {
  const busy = useSelected(selectBusy);
  const { dialogOpened } = useActions();
  const { importSweep } = useWorkbench();
  const [where, setWhere] = useState<string>('port');
  const [lossDb, setLossDb] = useState(testPointLossDb);
  const [text, setText] = useState(given);
  const [told, setTold] = useState<Told>({});
  const isPaste = given === '';
  const preview = useMemo(
    () => (text.trim() === '' ? null : previewSweep(text, fileName, told)),
    [text, fileName, told],
  );
  const isCertain = preview !== null && preview.refusal === null && preview.readingCount > 0;
  const take = () =>
    importSweep({ fileName, text, purpose, testPointLossDb: where === 'port' ? 0 : lossDb, told });
  return (
    <Panel title={fileName} width="wide" isOpen onClose={() => dialogOpened({ open: 'none' })}>
      {isPaste && (
        <TextField
          className="field"
          value={text}
          onChange={(next) => {
            setText(next);
            setTold({});
          }}
        >
          <Label>Paste a table of frequencies and levels here</Label>
          <TextArea className="preview__paste" rows={6} spellCheck="false" />
        </TextField>
      )}
      {preview !== null && <SweepPreviewView preview={preview} />}
      {preview !== null && <SweepQuestion preview={preview} told={told} onTell={setTold} />}
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
          isDisabled={
            busy === 'import-sweep' || !isCertain || (where === 'test-point' && !Number.isFinite(lossDb))
          }
          onPress={take}
        >
          Take it into the visit
        </PressButton>
      </div>
    </Panel>
  );
}
