import { Button, Menu, MenuItem, MenuTrigger, Popover } from 'react-aria-components';
import { Glyph } from '../../parts/Glyph.tsx';
import type { StationDraft } from '../../state/design/draft.ts';
import { withOnePort } from '../../state/design/edits.ts';
import { PortTabs } from '../PortTabs.tsx';

export type DesignPortsProps = Readonly<{
  draft: StationDraft;
  portKey: number;
  onChoose: (key: number) => void;
  onChange: (draft: StationDraft, about: string) => void;
}>;

const more = ['forward output', 'forward input', 'return output'] as const;
const moreWords = {
  'forward output': 'A forward output',
  'forward input': 'A forward input, only read',
  'return output': 'A return output',
} as const;

/** The ports of the station, and one more. */
export function DesignPorts({ draft, portKey, onChoose, onChange }: DesignPortsProps) {
  const chosen = draft.ports.find(({ key }) => key === portKey);
  // Two ports may share a name while one of them is typed; then the first is meant.
  const names = draft.ports.map(({ name }, i) => ({
    name: name.trim() === '' ? `port ${i + 1}` : name,
  }));
  const shown = names[draft.ports.findIndex(({ key }) => key === portKey)];
  return (
    <div className="design__ports">
      <PortTabs
        ports={names}
        portName={shown?.name ?? chosen?.name ?? ''}
        isDisabled={false}
        onChoose={(name) => {
          const port = draft.ports[names.findIndex((one) => one.name === name)];
          if (port !== undefined) onChoose(port.key);
        }}
      />
      <MenuTrigger>
        <Button className="button button--quiet button--usual">
          <Glyph name="more" /> Port
        </Button>
        <Popover className="popover popover--menu">
          <Menu
            className="options"
            aria-label="Which port"
            onAction={(key) => {
              const kind = more.find((one) => one === key);
              if (kind === undefined) return;
              const added = withOnePort(draft, kind);
              onChange(added.draft, `port ${added.key}`);
              onChoose(added.key);
            }}
          >
            {more.map((kind) => (
              <MenuItem key={kind} id={kind} className="option">
                {moreWords[kind]}
              </MenuItem>
            ))}
          </Menu>
        </Popover>
      </MenuTrigger>
    </div>
  );
}
