import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';

export type CopyMenuProps = Readonly<{ onNumbers: () => void; onPicture: () => void }>;

/** A drawing goes out in two forms, now and then: both behind one press, so that the row of tools stays short. */
export const CopyMenu = ({ onNumbers, onPicture }: CopyMenuProps) => (
  <MenuTrigger>
    <Button className="button button--quiet button--usual">Copy</Button>
    <Popover className="popover popover--menu" placement="bottom end">
      <Menu
        className="options"
        aria-label="Copy"
        onAction={(key) => (key === 'picture' ? onPicture() : onNumbers())}
      >
        <MenuItem id="picture" className="option">
          Copy picture
        </MenuItem>
        <MenuItem id="numbers" className="option">
          Copy numbers
        </MenuItem>
      </Menu>
    </Popover>
  </MenuTrigger>
);
