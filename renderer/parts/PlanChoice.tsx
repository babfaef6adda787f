import { Label, Radio, RadioGroup } from 'react-aria-components';
import { bareMhz, counted, mhz } from '../format.ts';

export type PlanChoiceProps = Readonly<{
  plans: readonly Readonly<{ key: string; title: string; frequenciesMhz: readonly number[] }>[];
  chosen: string;
  onChoose: (key: string) => void;
}>;

export const planWords = (frequenciesMhz: readonly number[]): string =>
  `${counted(frequenciesMhz.length, 'channel', 'channels')}, ${bareMhz(Math.min(...frequenciesMhz))} to ${mhz(Math.max(...frequenciesMhz))}`;

/** What will be read, before it is read. */
export const PlanChoice = ({ plans, chosen, onChoose }: PlanChoiceProps) => (
  <RadioGroup className="ways ways--close" value={chosen} onChange={onChoose}>
    <Label className="ways__label">Channels</Label>
    {plans.map(({ key, title, frequenciesMhz }) => (
      <Radio key={key} value={key} className="way">
        <span className="way__knob" />
        <span className="way__words">
          <strong>{title}</strong>
          <small>{planWords(frequenciesMhz)}</small>
        </span>
      </Radio>
    ))}
  </RadioGroup>
);
