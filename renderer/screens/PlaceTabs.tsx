import { ToggleButton, ToggleButtonGroup } from 'react-aria-components';
import type { Station } from '../../core/files/station.ts';
import { useLeave } from '../parts/unsaved.ts';
import { placesOf } from '../state/place-slice.ts';
import { selectPlace } from '../state/select.ts';
import { useActions, useSelected } from '../state/use-workbench.ts';

export type PlaceTabsProps = Readonly<{ station: Station; isDisabled: boolean }>;

/** Where one can go at this station. What its file says nothing about has no tab. */
export function PlaceTabs({ station, isDisabled }: PlaceTabsProps) {
  const place = useSelected(selectPlace);
  const { placeChosen } = useActions();
  const leave = useLeave();
  const here = placesOf(station);
  return (
    <nav className="places" aria-label="At this station">
      <ToggleButtonGroup
        className="places__group"
        aria-label="Screen"
        selectionMode="single"
        disallowEmptySelection
        isDisabled={isDisabled}
        selectedKeys={[place]}
        onSelectionChange={(keys) => {
          const [key] = keys;
          const chosen = here.find((one) => one.place === key);
          if (chosen !== undefined && chosen.place !== place) leave(() => placeChosen(chosen.place));
        }}
      >
        {here.map((one) => (
          <ToggleButton key={one.place} id={one.place} className="places__place">
            {one.name}
          </ToggleButton>
        ))}
      </ToggleButtonGroup>
    </nav>
  );
}
