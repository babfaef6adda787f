import { selectSeasonFace } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useSelected } from '../state/use-workbench.ts';
import { PlaceDialogs } from './PlaceDialogs.tsx';
import { SeasonWatch } from './SeasonWatch.tsx';
import { SeasonWeather } from './SeasonWeather.tsx';
import { SeasonYear } from './SeasonYear.tsx';
import { StationBar } from './StationBar.tsx';

/** The year ahead as it is computed, and the days that were watched. */
export function SeasonScreen({ open }: Readonly<{ open: OpenSheet }>) {
  const { station } = open.sheet;
  const face = useSelected(selectSeasonFace);
  return (
    <div className="sheet season">
      <StationBar open={open} />
      <SeasonWeather station={station} face={face} />
      {face === 'year' ? <SeasonYear station={station} /> : <SeasonWatch open={open} />}
      <PlaceDialogs />
    </div>
  );
}
