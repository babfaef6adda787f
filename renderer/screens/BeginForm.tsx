import { useState } from 'react';
import { Form, Input, Label, TextField } from 'react-aria-components';
import { celsiusFromFahrenheit } from '../../core/units.ts';
import { Cautions } from '../parts/Cautions.tsx';
import { NumberEntry } from '../parts/NumberEntry.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import { selectBusy, selectOperator, selectTemperatureUnit } from '../state/select.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';

export type BeginFormProps = Readonly<{ shape: 'dialog' | 'side' }>;

/** The start of a visit: the cautions, who, and how warm it is. The button under them is the one way past them. */
export function BeginForm({ shape }: BeginFormProps) {
  const unit = useSelected(selectTemperatureUnit);
  const operator = useSelected(selectOperator);
  const busy = useSelected(selectBusy);
  const { beginVisit } = useWorkbench();
  const [name, setName] = useState(operator);
  const [ambient, setAmbient] = useState(Number.NaN);

  const begin = () =>
    beginVisit({
      operator: name.trim(),
      // An empty field stays unknown; it is never taken as zero degrees.
      ambientC: Number.isFinite(ambient) ? (unit === 'C' ? ambient : celsiusFromFahrenheit(ambient)) : null,
    });

  return (
    <Form
      className={`begin begin--${shape}`}
      onSubmit={(event) => {
        event.preventDefault();
        void begin();
      }}
    >
      <Cautions />
      <div className="begin__fields">
        <TextField className="field" value={name} onChange={setName} maxLength={120}>
          <Label>Operator</Label>
          <Input autoComplete="name" placeholder={shape === 'dialog' ? 'may stay empty' : ''} />
        </TextField>
        <div className="begin__warmth">
          <NumberEntry
            className="field"
            value={ambient}
            onChange={setAmbient}
            minValue={unit === 'C' ? -60 : -76}
            maxValue={unit === 'C' ? 60 : 140}
          >
            <Label>{`Ambient, °${unit}`}</Label>
            <Input placeholder={shape === 'dialog' ? 'not measured' : ''} />
          </NumberEntry>
        </div>
      </div>
      <PressButton
        rank="do"
        size="visit"
        type="submit"
        isDisabled={busy === 'begin-visit'}
        autoFocus={shape === 'dialog'}
      >
        Read them, begin the visit
      </PressButton>
    </Form>
  );
}
