import { useMemo, useState } from 'react';
import { Input, Label, Radio, RadioGroup, TextArea, TextField } from 'react-aria-components';
import type { Purpose } from '../../core/bridge/records.ts';
import type { Encoding } from '../../core/files/encoding.ts';
import { previewSweep, type SweepPreview } from '../../core/files/preview-sweep.ts';
import type { Told } from '../../core/files/sweep-csv.ts';
import { plugIn } from '../format.ts';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { Panel } from '../parts/Panel.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { SourceLines } from '../parts/SourceLines.tsx';
import { SweepPreviewView } from '../parts/SweepPreviewView.tsx';
import { useUnsaved } from '../parts/unsaved.ts';
import { selectBusy, selectLevelUnit } from '../state/select.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { DialogNotice } from './DialogNotice.tsx';
import { SweepQuestion } from './SweepQuestion.tsx';

export type ImportSweepProps = Readonly<{
  fileName: string;
  text: string;
  /** What is to be known of how the file was written. */
  note: string | null;
  /** In which it is written, byte by byte; null for a paste. */
  encoding: Encoding | null;
  portName: string;
  testPointLossDb: number;
  purpose: Purpose;
}>;

const withNote = (preview: SweepPreview, note: string): SweepPreview => ({
  ...preview,
  notes: [...preview.notes, note],
});

/**
 * A file or a paste before it is taken: what was understood of it, what makes it certain where it is not, and the one
 * question that no file answers: were its levels read at the test point, or are they the port's?
 */
export function ImportSweep(props: ImportSweepProps) {
  const { dialogOpened } = useActions();
  return (
    <Panel
      title={props.text === '' ? 'A pasted table' : props.fileName}
      width="widest"
      isOpen
      onClose={() => dialogOpened({ open: 'none' })}
    >
      <ImportForm {...props} />
    </Panel>
  );
}

function ImportForm({
  fileName,
  text: given,
  note,
  encoding,
  portName,
  testPointLossDb,
  purpose,
}: ImportSweepProps) {
  const busy = useSelected(selectBusy);
  const unit = useSelected(selectLevelUnit);
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
  const canBeTaken = isCertain && (where === 'port' || Number.isFinite(lossDb));
  const take = () =>
    importSweep({
      fileName,
      text,
      ...(encoding === null ? {} : { encoding }),
      purpose,
      testPointLossDb: where === 'port' ? 0 : lossDb,
      told,
    });
  // A file is still where it was; what was pasted is nowhere else.
  useUnsaved({
    isChanged: isPaste && text.trim() !== '',
    trouble: canBeTaken ? null : 'what was pasted is not certain enough to be taken into the visit.',
    keep: take,
  });
  const left = useMemo(
    () => new Set([...(preview?.left ?? []), ...(preview?.rest ?? [])].map(({ line }) => line)),
    [preview],
  );
  return (
    <>
      <div className="import">
        <div className="import__said">
          {isPaste ? (
            <TextField
              className="field"
              value={text}
              onChange={(next) => {
                setText(next);
                setTold({});
              }}
            >
              <Label>Paste a table of frequencies and levels here</Label>
              <TextArea className="import__paste" rows={7} spellCheck="false" />
            </TextField>
          ) : (
            <SourceLines text={text} left={left} />
          )}
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
        </div>
        <div className="import__understood">
          {preview === null ? (
            <p className="import__none">
              What is understood of it is shown here, with every line that is left out, before anything is
              taken.
            </p>
          ) : (
            <SweepPreviewView preview={note === null ? preview : withNote(preview, note)} unit={unit} />
          )}
        </div>
      </div>
      <DialogNotice />
      <div className="panel__end import__end">
        <PressButton
          rank="do"
          size="visit"
          isDisabled={busy === 'import-sweep' || !canBeTaken}
          onPress={() => void take()}
        >
          Take it into the visit
        </PressButton>
      </div>
    </>
  );
}
