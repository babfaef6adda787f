import { useEffect, useMemo, useState } from 'react';
import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';
import { CABLES } from '../../core/coax/cables.ts';
import { cableNamed } from '../../core/coax/loss.ts';
import { lengthForLossM } from '../../core/coax/span.ts';
import type { SpanNotes } from '../../core/files/station-figures.ts';
import { cableTemperatures } from '../../core/season/sun.ts';
import { type SpanCurve, SpanPicture } from '../charts/SpanPicture.tsx';
import { ToolsPlaceContext } from '../charts/tools-place.ts';
import { lengthWords, type TemperatureUnit, temperature } from '../format.ts';
import { basisOf, howLoss, howTilt, type SpanUnits } from '../how/span.ts';
import { Guard } from '../parts/Guard.tsx';
import { HowText } from '../parts/HowText.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import {
  selectCascade,
  selectLengthUnit,
  selectNotes,
  selectSunOffsetC,
  selectTemperatureUnit,
  selectWeather,
} from '../state/select.ts';
import type { OpenSheet } from '../state/sheet-slice.ts';
import { designOf, type SpanView, type Temperatures, viewSpan } from '../state/span-view.ts';
import { lossWords, tiltWords } from '../state/span-words.ts';
import { useUndo } from '../state/use-undo.ts';
import { useSelected, useWorkbench } from '../state/use-workbench.ts';
import { NoiseSide } from './NoiseSide.tsx';
import { PlaceDialogs } from './PlaceDialogs.tsx';
import { SpanEntry } from './SpanEntry.tsx';
import { SpanFacts } from './SpanFacts.tsx';
import { StationBar } from './StationBar.tsx';

const RATED_C = 20;
/** A cable to begin with where nobody has said which one hangs there. */
const FIRST_CABLE = '.750';
const FIRST_LENGTH_M = 300;

/** The cable in front of a station, and the noise that has come together behind it. */
export function SpanScreen({ open }: Readonly<{ open: OpenSheet }>) {
  const { station, sweeps, fittings } = open.sheet;
  const cascade = useSelected(selectCascade);
  const notes = useSelected(selectNotes);
  const { readCascade } = useWorkbench();
  // The cascade is made from the archive: it is asked again when something in it may have changed.
  const asOf = `${notes?.revision} ${sweeps[0]?.sweepId} ${sweeps[0]?.state} ${fittings.length}`;
  useEffect(() => {
    if (asOf !== '') void readCascade(station.id);
  }, [readCascade, station.id, asOf]);
  const here = cascade.at !== 'none' && cascade.stationId === station.id ? cascade : null;
  return (
    <div className="sheet span-sheet">
      <StationBar open={open} />
      {here?.at === 'here' && (
        <Here
          key={`${station.id} ${JSON.stringify(here.links.at(-1)?.notes?.span ?? null)}`}
          links={here.links}
          unknownId={here.unknownId}
          ambientC={open.sheet.openVisit?.ambientC ?? null}
        />
      )}
      {here?.at === 'failed' && (
        <main className="plain-page">
          <h1>The cascade of this station could not be read.</h1>
          <p>{here.help}</p>
          <PressButton size="visit" onPress={() => void readCascade(station.id)}>
            Try again
          </PressButton>
        </main>
      )}
      <PlaceDialogs />
    </div>
  );
}

/** What nobody has entered begins with the loss that the station file names. */
function firstSpan(link: CascadeLink, highMhz: number): SpanNotes {
  const cable = cableNamed(FIRST_CABLE);
  const lossDb = link.station.span?.lossDb;
  const length = cable.ok && lossDb !== undefined ? lengthForLossM(cable.value, highMhz, lossDb) : null;
  return {
    cable: CABLES.find(({ name }) => name === FIRST_CABLE)?.name ?? FIRST_CABLE,
    lengthM: length?.ok === true ? Math.round(length.value) : FIRST_LENGTH_M,
  };
}

function curvesOf(
  { curves }: SpanView,
  { coldC, nowC, hotC }: Temperatures,
  unit: TemperatureUnit,
  isToday: boolean,
): readonly SpanCurve[] {
  const words = {
    cold: `cold, ${temperature(coldC, unit)}`,
    now: `${isToday ? 'today, ' : ''}${temperature(nowC, unit)}`,
    hot: `hot, ${temperature(hotC, unit)}`,
  };
  return curves.map(({ day, points }) => ({ key: day, words: words[day], points }));
}

const measuredOf = ({ check }: SpanView): readonly (readonly [number, number])[] =>
  (check?.points ?? []).map(({ frequencyMhz, measuredDb }) => [frequencyMhz, measuredDb] as const);

type HereProps = Readonly<{
  links: readonly CascadeLink[];
  unknownId: string | null;
  ambientC: number | null;
}>;

function Here({ links, unknownId, ambientC }: HereProps) {
  const weather = useSelected(selectWeather);
  const sunOffsetC = useSelected(selectSunOffsetC);
  const units: SpanUnits = {
    length: useSelected(selectLengthUnit),
    temperature: useSelected(selectTemperatureUnit),
  };
  const link = links.at(-1);
  const design = link === undefined ? null : designOf(link);
  const kept = link?.notes?.span;
  const { draft, say: setDraft, undo, redo } = useUndo<SpanNotes | null>(null, 'page');
  const span =
    draft ?? kept ?? (link === undefined || design === null ? null : firstSpan(link, design.highMhz));
  const temperatures = useMemo<Temperatures>(() => {
    const air = { coldC: weather.climate.coldestC, hotC: weather.climate.hottestC };
    return { ...cableTemperatures(air, link?.station.span?.sky, sunOffsetC), nowC: ambientC ?? RATED_C };
  }, [weather, sunOffsetC, link, ambientC]);
  const view = useMemo(
    () => (span === null ? { missing: 'no forward design' } : viewSpan(links, span, temperatures)),
    [links, span, temperatures],
  );
  const curves = useMemo(
    () => ('missing' in view ? [] : curvesOf(view, temperatures, units.temperature, ambientC !== null)),
    [view, temperatures, units.temperature, ambientC],
  );
  const measured = useMemo(() => ('missing' in view ? [] : measuredOf(view)), [view]);
  const [toolsPlace, setToolsPlace] = useState<HTMLElement | null>(null);
  if (link === undefined || design === null || span === null) return null;
  return (
    <>
      <SpanEntry
        draft={span}
        kept={kept}
        isSaid={draft !== null}
        highMhz={design.highMhz}
        onDraft={setDraft}
        undo={undo}
        redo={redo}
      />
      <main className="span-main">
        {'missing' in view ? (
          <p className="span-main__none">{view.missing}</p>
        ) : (
          <>
            <div className="span-main__head">
              <p className="lead">
                {kept === undefined
                  ? `Taken for now: ${lengthWords(span.lengthM, units.length)} of ${span.cable}. Say which cable hangs there.`
                  : `${lengthWords(span.lengthM, units.length)} of ${span.cable} in front of this station, at ${temperature(RATED_C, units.temperature)}.`}{' '}
                <span className="span-main__basis">{basisOf(span.cable)}</span>
              </p>
              <div className="span-main__row">
                <h2 className="span-main__finding">
                  <HowText how={howLoss(view, units)} text={lossWords(view)} />
                  {', '}
                  <HowText how={howTilt(view)} text={tiltWords(view)} />
                </h2>
                <div className="tools-place" ref={setToolsPlace} />
              </div>
            </div>
            <Guard fallback={null} resetKey={`${span.cable} ${units.temperature}`}>
              <ToolsPlaceContext value={toolsPlace}>
                <SpanPicture
                  curves={curves}
                  measured={measured}
                  about={`${link.station.name}, ${lengthWords(span.lengthM, units.length)} of ${span.cable}`}
                  lowMhz={design.lowMhz}
                  highMhz={design.highMhz}
                  title={`Loss over frequency: ${lossWords(view)}, ${tiltWords(view)}`}
                />
              </ToolsPlaceContext>
            </Guard>
            <SpanFacts view={view} units={units} />
          </>
        )}
      </main>
      <aside className="side" aria-label="Noise and distortion">
        <NoiseSide links={links} unknownId={unknownId} />
      </aside>
    </>
  );
}
