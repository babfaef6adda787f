import { useEffect, useMemo } from 'react';
import { asMeasured, stationAsMeasured } from '../state/as-measured.ts';
import { selectReachFrom, selectSeasonFace, selectSetUpsOf } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { PlaceDialogs } from './PlaceDialogs.tsx';
import { SeasonWatch } from './SeasonWatch.tsx';
import { SeasonWeather } from './SeasonWeather.tsx';
import { SeasonYear } from './SeasonYear.tsx';
import { StationBar } from './StationBar.tsx';

/** The year ahead as it is computed, and the days that were watched. */
export function SeasonScreen({ open }: Readonly<{ open: OpenSheet }>) {
  const { station } = open.sheet;
  const face = useSelected(selectSeasonFace);
  const setUpsOf = useSelected(selectSetUpsOf);
  const reachFrom = useSelected(selectReachFrom);
  const { listSetUps } = useWorkbench();
  useEffect(() => {
    void listSetUps(station.id);
  }, [listSetUps, station.id]);
  const measured = useMemo(
    () => (setUpsOf?.stationId === station.id ? asMeasured(station, setUpsOf.setUps) : null),
    [setUpsOf, station],
  );
  const told = useMemo(() => stationAsMeasured(station, measured, reachFrom), [station, measured, reachFrom]);
  return (
    <div className="sheet season">
      <StationBar open={open} />
      <SeasonWeather station={told} face={face} />
      {face === 'year' ? <SeasonYear station={told} measured={measured} /> : <SeasonWatch open={open} />}
      <PlaceDialogs />
    </div>
  );
}
