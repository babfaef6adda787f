import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { Glyph } from '../parts/Glyph.tsx';
import { selectTheme } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

/** What a narrow bar has no room for; a wide one shows it in the open, and this menu is away. */
export function MoreMenu() {
  const theme = useSelected(selectTheme);
  const { dialogOpened, themeChosen } = useActions();
  return (
    <div className="bar__narrow">
      <MenuTrigger>
        <Button
          className="icon-button icon-button--framed"
          aria-label="More: truck, settings, colours of sun or night"
        >
          <Glyph name="menu" />
        </Button>
        <Popover className="popover popover--menu" placement="bottom end">
          <Menu
            className="options"
            aria-label="More"
            onAction={(key) => {
              if (key === 'truck' || key === 'settings') dialogOpened({ open: key });
              if (key === 'theme') themeChosen(theme === 'night' ? 'sun' : 'night');
            }}
          >
            <MenuItem id="truck" textValue="Parts in the truck" className="option option--glyph">
              <Glyph name="truck" /> Parts in the truck
            </MenuItem>
            <MenuItem id="settings" textValue="Settings" className="option option--glyph">
              <Glyph name="settings" /> Settings
            </MenuItem>
            <MenuItem id="theme" textValue="Colours" className="option option--glyph">
              <Glyph name={theme === 'night' ? 'sun' : 'moon'} />
              {theme === 'night' ? 'Colours for the sun' : 'Colours for the night'}
            </MenuItem>
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
}
