import type { ReactNode } from 'react';
import { Button } from 'react-aria-components';
import { Glyph } from '../../parts/Glyph.tsx';
import { BarEnd } from '../BarEnd.tsx';

export type RecordsBarProps = Readonly<{
  name: string;
  backTo: string;
  onBack: () => void;
  children?: ReactNode;
}>;

/** The bar over every screen of all records: where one is, and the way back. */
export const RecordsBar = ({ name, backTo, onBack, children }: RecordsBarProps) => (
  <header className="bar">
    <Button className="bar__back" onPress={onBack} aria-label={`Back to ${backTo}`}>
      <Glyph name="back" />
    </Button>
    <p className="bar__place">
      <span className="bar__name">{name}</span>
    </p>
    {children}
    <BarEnd />
  </header>
);
