import { Button } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { useActions } from '../state/use-workbench.ts';

/** The truck and the settings: on every screen, because both change what every screen says. */
export function KeptButtons() {
  const { dialogOpened } = useActions();
  return (
    <>
      <Button
        className="icon-button icon-button--framed icon-button--worded"
        aria-label="Truck: parts in the truck"
        onPress={() => dialogOpened({ open: 'truck' })}
      >
        <Glyph name="truck" />
        <span>Truck</span>
      </Button>
      <Button
        className="icon-button icon-button--framed icon-button--worded"
        aria-label="Settings: units, and what the meter is good to"
        onPress={() => dialogOpened({ open: 'settings' })}
      >
        <Glyph name="settings" />
        <span>Settings</span>
      </Button>
    </>
  );
}
