import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { type PairWay, pairWays } from './change.ts';

export type PairWaysProps = Readonly<{ way: PairWay; onWay: (way: PairWay) => void }>;

const wayWords: Record<PairWay, string> = {
  over: 'Together',
  beside: 'Apart',
  moving: 'Moving',
};

/** How two sweeps are shown. Pressed once more, the way from before to after runs again. */
export const PairWays = ({ way, onWay }: PairWaysProps) => (
  <ToggleButtonGroup
    className="segments picture-tools__ways"
    aria-label="Before and after"
    selectionMode="single"
    selectedKeys={[way]}
    onSelectionChange={(keys) => {
      const [key] = keys;
      onWay(pairWays.find((one) => one === key) ?? way);
    }}
  >
    {pairWays.map((one) => (
      <ToggleButton key={one} id={one}>
        {wayWords[one]}
      </ToggleButton>
    ))}
  </ToggleButtonGroup>
);
