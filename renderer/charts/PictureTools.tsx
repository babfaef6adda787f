import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import { PressButton } from '../parts/PressButton.tsx';
import { type PairWay, pairWays } from './change.ts';
import type { ZoomControls } from './use-chart-hand.ts';

export type PictureToolsProps = Readonly<{
  controls: ZoomControls;
  /** How the two sweeps are shown; null where there is one. */
  way: PairWay | null;
  onWay: (way: PairWay) => void;
  onCopy: () => void;
}>;

const wayWords: Record<PairWay, string> = {
  over: 'Over each other',
  beside: 'Side by side',
  moving: 'Before to after',
};

/** What can be done with the drawing itself. Its keys do the same. */
export function PictureTools({ controls, way, onWay, onCopy }: PictureToolsProps) {
  return (
    <div className="picture-tools" role="toolbar" aria-label="The chart">
      {way !== null && (
        <ToggleButtonGroup
          className="segments picture-tools__ways"
          aria-label="Before and after"
          selectionMode="single"
          selectedKeys={[way]}
          onSelectionChange={(keys) => {
            const [key] = keys;
            // Pressed once more, the way from before to after runs again.
            onWay(pairWays.find((one) => one === key) ?? way);
          }}
        >
          {pairWays.map((one) => (
            <ToggleButton key={one} id={one}>
              {wayWords[one]}
            </ToggleButton>
          ))}
        </ToggleButtonGroup>
      )}
      <div className="picture-tools__zoom">
        <PressButton rank="quiet" onPress={onCopy}>
          Copy numbers
        </PressButton>
        {!controls.isWhole && (
          <PressButton rank="quiet" onPress={controls.toWhole}>
            Whole band
          </PressButton>
        )}
        <PressButton
          rank="quiet"
          aria-label="Farther"
          onPress={controls.farther}
          isDisabled={controls.isWhole}
        >
          −
        </PressButton>
        <PressButton rank="quiet" aria-label="Nearer" onPress={controls.nearer}>
          +
        </PressButton>
      </div>
    </div>
  );
}
