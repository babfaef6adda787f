import type { ReactNode } from 'react';
import { Button } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { useActions } from '../state/use-workbench.ts';
import { KeptButtons } from './KeptButtons.tsx';
import { MeterChip } from './MeterChip.tsx';
import { MoreMenu } from './MoreMenu.tsx';
import { ThemeSwitch } from './ThemeSwitch.tsx';
import { UnitsButton } from './UnitsButton.tsx';

export type BarEndProps = Readonly<{ children?: ReactNode }>;

/** The right end of every bar: what belongs to the screen, the meter, and what is within one press everywhere. */
export function BarEnd({ children }: BarEndProps) {
  const { searchOpened, helpOpened } = useActions();
  return (
    <div className="bar__end">
      {children}
      <MeterChip />
      <UnitsButton />
      <Button
        className="icon-button icon-button--framed"
        aria-label="Search everything. Control and K, or a stroke, opens it too."
        onPress={searchOpened}
      >
        <Glyph name="search" />
      </Button>
      <Button
        className="icon-button icon-button--framed"
        aria-label="Help: the words of the trade, and the keys"
        onPress={() => helpOpened('terms')}
      >
        <Glyph name="help" />
      </Button>
      <div className="bar__roomy">
        <KeptButtons />
        <ThemeSwitch />
      </div>
      <MoreMenu />
    </div>
  );
}
