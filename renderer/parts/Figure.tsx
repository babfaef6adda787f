import { Input, Label, Text } from 'react-aria-components';
import { NumberEntry } from './NumberEntry.tsx';

export type FigureProps = Readonly<{
  name: string;
  about?: string | undefined;
  unit: string;
  value: number | null;
  digits?: number;
  from?: number;
  to?: number;
  step?: number | undefined;
  onSay: (value: number | null) => void;
}>;

/** A figure with its name, its unit, and in a line what it means. It may be left empty. */
export const Figure = ({ name, about, unit, value, digits = 2, from, to, step, onSay }: FigureProps) => (
  <NumberEntry
    className="quantity"
    value={value ?? Number.NaN}
    {...(from === undefined ? {} : { minValue: from })}
    {...(to === undefined ? {} : { maxValue: to })}
    {...(step === undefined ? {} : { step })}
    formatOptions={{ maximumFractionDigits: digits }}
    onChange={(said) => onSay(Number.isFinite(said) ? said : null)}
  >
    <Label className="quantity__name">{name}</Label>
    {about !== undefined && (
      <Text slot="description" className="quantity__about">
        {about}
      </Text>
    )}
    <span className="quantity__field">
      <Input />
      <span aria-hidden="true">{unit}</span>
    </span>
  </NumberEntry>
);
