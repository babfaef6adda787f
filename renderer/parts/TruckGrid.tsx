import { Button, Group, Input, Label, NumberField } from 'react-aria-components';
import { plugIn } from '../format.ts';
import { Glyph } from './Glyph.tsx';

export type TruckGridProps = Readonly<{
  /** "pad", "equalizer for 870 MHz": for the screen reader. */
  kind: string;
  values: readonly Readonly<{ valueDb: number; count: number }>[];
  onCount: (valueDb: number, count: number) => void;
}>;

/** Parts are whole: no sign between digits is taken, so that none can be taken for another. */
const WHOLE = { maximumFractionDigits: 0, useGrouping: false };

/** How many of each value are there: the value large, as it is printed on the part, and a stepper under it. */
export const TruckGrid = ({ kind, values, onCount }: TruckGridProps) => (
  <div className="truck-grid">
    {values.map(({ valueDb, count }) => (
      <NumberField
        key={valueDb}
        className={`truck-cell${count === 0 ? ' truck-cell--none' : ''}`}
        aria-label={`${kind} ${plugIn(valueDb)} dB, how many`}
        value={count}
        minValue={0}
        maxValue={999}
        step={1}
        formatOptions={WHOLE}
        onChange={(changed) => Number.isFinite(changed) && onCount(valueDb, changed)}
      >
        <Label className="truck-cell__value" aria-hidden="true">
          {plugIn(valueDb)}
        </Label>
        <Group className="truck-cell__count">
          <Button slot="decrement" aria-label={`one ${kind} ${plugIn(valueDb)} less`}>
            <Glyph name="less" />
          </Button>
          <Input />
          <Button slot="increment" aria-label={`one ${kind} ${plugIn(valueDb)} more`}>
            <Glyph name="more" />
          </Button>
        </Group>
      </NumberField>
    ))}
  </div>
);
