import { useEffect, useState } from 'react';
import {
  SEASON_RUNS,
  SEASON_UNCERTAINTY,
  type SeasonChance,
  seasonChance,
} from '../../core/season/monte-carlo.ts';
import { mhz, sizeDb, temperature, whole } from '../format.ts';
import { degrees } from '../how/degrees.ts';
import { howChance, howDemand, howHolds, howLimits, howSun } from '../how/season.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { PressButton } from '../parts/PressButton.tsx';
import type { AsMeasured } from '../state/as-measured.ts';
import { type SeasonView, TAKEN_TRACKING } from '../state/season-view.ts';
import {
  chanceWords,
  modeWords,
  reachWords,
  remedyWords,
  seasonHeadline,
  seasonSentences,
} from '../state/season-words.ts';
import { selectReachFrom, selectTemperatureUnit, selectWeather } from '../state/select.ts';
import { useActions, useBench, useSelected } from '../state/use-workbench.ts';

/** Any seed is as good; always the same one, so that the same figures give the same chance. */
const SEED = 1;

/** The chance is drawn after the picture stands: nobody waits for ten thousand years. */
function useChance(view: SeasonView): SeasonChance | null {
  const [chance, setChance] = useState<SeasonChance | null>(null);
  useEffect(() => {
    const later = setTimeout(() => setChance(seasonChance(view.plan, view.cable, SEED)), 0);
    return () => clearTimeout(later);
  }, [view]);
  return chance;
}

/** The finding of the year in words, how sure it is, and what would help. */
export type SeasonSideProps = Readonly<{ view: SeasonView; measured: AsMeasured | null }>;

export function SeasonSide({ view, measured }: SeasonSideProps) {
  const unit = useSelected(selectTemperatureUnit);
  const weather = useSelected(selectWeather);
  const chance = useChance(view);
  const { help, plan, sunC } = view;
  const { setAtC, mode } = plan.gainControl;
  const spread = SEASON_UNCERTAINTY;
  return (
    <>
      <p className="lead">{`${plan.portName}, ${modeWords[mode]}, set at ${temperature(setAtC, unit)}`}</p>
      <h1>{seasonHeadline(view, unit)}</h1>
      {measured !== null && <Reach view={view} measured={measured} />}
      {seasonSentences(view, unit).map((sentence, i, all) => (
        <p key={sentence} className="said">
          <Mark verdict={help.holds ? 'pass' : 'fail'} pointing="up" />
          <span>
            <HowText
              how={
                i === 0 && (all.length > 1 || help.holds)
                  ? howLimits(plan, view.limit, unit)
                  : howHolds(plan, view.tolerance, unit)
              }
              text={sentence}
            />
          </span>
        </p>
      ))}
      <div className="season__chance">
        <p className="season__percent">
          {chance === null ? (
            ' '
          ) : (
            <HowText
              how={howChance(chance, spread, plan, unit, chanceWords(chance.holds))}
              text={chanceWords(chance.holds)}
            />
          )}
        </p>
        <p>
          chance of holding all year
          <small>
            {`${whole(SEASON_RUNS)} years drawn: span ±${sizeDb(spread.spanLossDb)}, reserve ±${sizeDb(spread.reserveDb)}, thermometer ±${degrees(spread.setAtC, unit)}, coefficient ±${((spread.perDegreeC / plan.span.perDegreeC) * 100).toFixed(0)}\u00A0%`}
          </small>
        </p>
      </div>
      {!help.holds && (
        <div className="do">
          <p className="do__lead">
            {help.remedies.length === 0 ? 'Nothing alone is enough' : 'Each of these alone is enough'}
          </p>
          <ul className="season__help">
            {help.remedies.map((remedy) => (
              <li key={`${remedy.kind} ${remedyWords(remedy)}`}>{remedyWords(remedy)}</li>
            ))}
          </ul>
          {help.remedies.length === 0 && (
            <p className="quiet">
              <HowText
                how={howDemand(plan, help, unit)}
                text={`The cable asks for ${sizeDb(help.coldDemandDb)} down and ${sizeDb(help.hotDemandDb)} up over such a year.`}
              />
            </p>
          )}
        </div>
      )}
      <div className="season__basis">
        <p className="quiet">
          <HowText
            how={howDemand(plan, help, unit)}
            text={`Span ${sizeDb(plan.span.lossDb)} at ${mhz(plan.span.topMhz)}`}
          />
          {plan.span.sky === 'aerial' ? (
            <>
              {', aerial: full sun makes the cable '}
              <HowText how={howSun(sunC, unit)} text={`${degrees(sunC, unit)} warmer`} />
              {' than the air.'}
            </>
          ) : plan.span.sky === 'buried' ? (
            ', buried: taken as warm as the air, on the safe side.'
          ) : (
            ', taken as warm as the air.'
          )}
        </p>
        {!weather.isAssumed && weather.fileName === null && (
          <p className="quiet">
            The record temperatures are as last said on this computer, for every station.
          </p>
        )}
        {weather.isAssumed && (
          <p className="quiet">The two record temperatures are taken for now: say those of this place.</p>
        )}
        {view.trackingTaken && (
          <p className="quiet">
            {`Thermal tracking of ${TAKEN_TRACKING} is taken: the station file says none.`}
          </p>
        )}
      </div>
    </>
  );
}

/** Whose figures the control reaches by, and the way to the other ones. */
function Reach({ view, measured }: Readonly<{ view: SeasonView; measured: AsMeasured }>) {
  const from = useSelected(selectReachFrom);
  const { reachChosen } = useActions();
  const { now } = useBench();
  return (
    <div className="season__reach">
      <p>{reachWords(view, measured, from, now())}</p>
      <PressButton rank="quiet" onPress={() => reachChosen(from === 'file' ? 'set-up' : 'file')}>
        {from === 'file' ? 'Take what the set-up measured' : 'Take the station file’s figures'}
      </PressButton>
    </div>
  );
}
