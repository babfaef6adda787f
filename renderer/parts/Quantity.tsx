import { Input, Label, Text } from 'react-aria-components';
import { NumberEntry } from './NumberEntry.tsx';

export type QuantityProps = Readonly<{
  name: string;
  about?: string;
  unit: string;
  value: number;
  from: number;
  to: number;
  step?: number;
  digits?: number;
  onChange: (value: number) => void;
}>;

/** A number with its name, its unit, and in a line what it means. An emptied field keeps what it was. */
export const Quantity = ({
  name,
  about,
  unit,
  value,
  from,
  to,
  step,
  digits = 3,
  onChange,
}: QuantityProps) => (
  <NumberEntry
    className="quantity"
    value={value}
    minValue={from}
    maxValue={to}
    formatOptions={{ maximumFractionDigits: digits }}
    {...(step === undefined ? {} : { step })}
    onChange={(changed) => Number.isFinite(changed) && onChange(changed)}
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
