import { useState } from 'react';
import { Button, Label, ListBox, ListBoxItem, Popover, Select, SelectValue } from 'react-aria-components';
import { USUAL_PART_TOLERANCE_DB } from '../../core/propose/predicted-sweep.ts';
import { plugIn } from '../format.ts';
import { Quantity } from './Quantity.tsx';

export type PartToleranceProps = Readonly<{
  /** "Pads", "Equalizers, 870 MHz". */
  name: string;
  values: readonly Readonly<{ valueDb: number; toleranceDb: number | null }>[];
  /** Of one value, or of all of the kind where `valueDb` is null. */
  onSay: (valueDb: number | null, toleranceDb: number) => void;
}>;

const ALL = 'all';

/** How far a part may lie off its label: of all of a kind, or of one value that is made to another tolerance. */
export function PartTolerance({ name, values, onSay }: PartToleranceProps) {
  const [of, setOf] = useState<string>(ALL);
  const chosen = values.filter(({ valueDb }) => of === ALL || String(valueDb) === of);
  const said = chosen.map(({ toleranceDb }) => toleranceDb ?? USUAL_PART_TOLERANCE_DB);
  const [first] = said;
  const shared = first !== undefined && said.every((one) => one === first) ? first : null;
  const isSaid = chosen.some(({ toleranceDb }) => toleranceDb !== null);
  return (
    <div className="part-tolerance">
      <Select
        className="field field--line"
        value={of}
        onChange={(key) => setOf(key === null ? ALL : String(key))}
      >
        <Label>May lie off its label</Label>
        <Button className="select-button">
          <SelectValue />
        </Button>
        <Popover className="popover">
          <ListBox className="options">
            <ListBoxItem id={ALL} className="option" textValue={name}>
              {name}
            </ListBoxItem>
            {values.map(({ valueDb }) => (
              <ListBoxItem
                key={valueDb}
                id={String(valueDb)}
                className="option"
                textValue={`only ${plugIn(valueDb)} dB`}
              >
                {`only ${plugIn(valueDb)}\u00A0dB`}
              </ListBoxItem>
            ))}
          </ListBox>
        </Popover>
      </Select>
      <Quantity
        name="by up to"
        about={
          shared === null
            ? 'they differ'
            : isSaid
              ? 'as it was said here'
              : 'common practice, where nothing is said'
        }
        unit={'\u00B1 dB'}
        value={shared ?? Number.NaN}
        from={0}
        to={20}
        digits={2}
        onChange={(toleranceDb) => onSay(of === ALL ? null : Number(of), toleranceDb)}
      />
    </div>
  );
}
