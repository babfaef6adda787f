import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { Port } from '../../core/files/station.ts';

export type PortTabsProps = Readonly<{
  ports: readonly Pick<Port, 'name'>[];
  portName: string;
  isDisabled: boolean;
  onChoose: (portName: string) => void;
}>;

/** The ports of a station, in the order of its file. */
export const PortTabs = ({ ports, portName, isDisabled, onChoose }: PortTabsProps) => (
  <ToggleButtonGroup
    className="ports"
    aria-label="Port"
    selectionMode="single"
    disallowEmptySelection
    isDisabled={isDisabled}
    selectedKeys={[portName]}
    onSelectionChange={(keys) => {
      const [key] = keys;
      if (key !== undefined) onChoose(String(key));
    }}
  >
    {ports.map(({ name }) => (
      <ToggleButton key={name} id={name} className="ports__port">
        {name}
      </ToggleButton>
    ))}
  </ToggleButtonGroup>
);
