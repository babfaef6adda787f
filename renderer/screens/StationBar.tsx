import { Button } from 'react-aria-components';
import { type TemperatureUnit, temperature } from '../format.ts';
import { Glyph } from '../parts/Glyph.tsx';
import { OUT_OF_SERVICE } from '../parts/service-words.ts';
import { useLeave } from '../parts/unsaved.ts';
import { selectNotes, selectRun, selectTemperatureUnit } from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { useActions, useSelected, useWorkbench } from '../state/use-workbench.ts';
import { BarEnd } from './BarEnd.tsx';
import { PlaceTabs } from './PlaceTabs.tsx';

const visitWords = (ambientC: number | null, unit: TemperatureUnit): string =>
  ambientC === null ? 'Visit open' : `${temperature(ambientC, unit)} ambient`;

/** The bar of a station: which one, where one is at it, its visit and the meter. The same on each of its screens. */
export function StationBar({ open }: Readonly<{ open: OpenSheet }>) {
  const unit = useSelected(selectTemperatureUnit);
  const run = useSelected(selectRun);
  const { leaveStation } = useWorkbench();
  const { dialogOpened } = useActions();
  const leave = useLeave();
  const { station, openVisit } = open.sheet;
  const away = useSelected(selectNotes)?.notes?.outOfService;
  const reading = run.at === 'starting' || run.at === 'running' || run.at === 'stopping';
  return (
    <header className="bar bar--station">
      <Button className="bar__back" onPress={() => leave(leaveStation)} aria-label="Back to the stations">
        <Glyph name="back" />
      </Button>
      <p className="bar__place">
        <span className="bar__name">{station.name}</span>
        {away !== undefined && <small className="bar__away">{OUT_OF_SERVICE}</small>}
      </p>
      <PlaceTabs station={station} isDisabled={reading} />
      <BarEnd>
        {openVisit !== null && (
          <Button
            className="visit-chip"
            onPress={() => dialogOpened({ open: 'end-visit' })}
            isDisabled={reading}
            aria-label={`${visitWords(openVisit.ambientC, unit)}, end the visit. A visit is open.`}
          >
            <strong>{visitWords(openVisit.ambientC, unit)}</strong> <small>end the visit</small>
          </Button>
        )}
      </BarEnd>
    </header>
  );
}
