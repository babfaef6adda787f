import { Figure, type FigureProps } from './Figure.tsx';

export type QuantityProps = Omit<FigureProps, 'value' | 'onSay' | 'from' | 'to'> &
  Readonly<{
    value: number;
    from: number;
    to: number;
    onChange: (value: number) => void;
  }>;

/** A figure that there always is: an emptied field keeps what it was. */
export const Quantity = ({ onChange, digits = 3, ...figure }: QuantityProps) => (
  <Figure {...figure} digits={digits} onSay={(said) => said !== null && onChange(said)} />
);
