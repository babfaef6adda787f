import { ToggleButton } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { selectTheme } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

/** Sun for outdoors, night for the dark; both say the same. */
export function ThemeSwitch() {
  const theme = useSelected(selectTheme);
  const { themeChosen } = useActions();
  return (
    <ToggleButton
      className="icon-button icon-button--framed"
      isSelected={theme === 'night'}
      onChange={(night) => themeChosen(night ? 'night' : 'sun')}
      aria-label="Night colours"
    >
      <Glyph name={theme === 'night' ? 'sun' : 'moon'} />
    </ToggleButton>
  );
}
