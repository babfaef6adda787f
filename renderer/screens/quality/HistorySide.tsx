import { drifts } from '../../../core/drift/drift-trend.ts';
import { driftWords } from '../../../core/drift/drift-words.ts';
import { type Followed, limitsOf } from '../../../core/drift/figures.ts';
import type { ReserveTrend } from '../../../core/drift/reserve-trend.ts';
import { ruleIds, rules } from '../../../core/drift/run-rules.ts';
import type { StationDrift } from '../../../core/drift/station-drift.ts';
import type { Design } from '../../../core/files/station.ts';
import { capital, oneDecimal, signedDecimal } from '../../format.ts';
import { type FollowedFigure, howFigureNow, howLeaving, howRule, howSlope } from '../../how/drift.ts';
import type { How } from '../../how/how.ts';
import { HowButton } from '../../parts/HowButton.tsx';
import { HowText } from '../../parts/HowText.tsx';
import type { HistoryView } from '../../state/quality-view.ts';
import {
  basisWords,
  driftsWords,
  figureNames,
  leavingWords,
  missingWords,
  sinceWords,
  slopeWords,
} from '../../state/quality-words.ts';
import { selectTemperatureUnit } from '../../state/select.ts';
import { useSelected } from '../../state/use-workbench.ts';
import type { OpenHistory } from './HistoryScreen.tsx';
import { HistorySweeps } from './HistorySweeps.tsx';

export type HistorySideProps = Readonly<{ open: OpenHistory; view: HistoryView }>;

const figureOf = (of: Followed, design: Design): FollowedFigure => ({
  of,
  name: figureNames[of],
  limits: limitsOf(of, design),
});

/** What the history comes to, in words and figures, and every sweep of it. */
export const HistorySide = ({ open, view: { drift, reserve, port } }: HistorySideProps) => (
  <aside className="side history__side" aria-label="What the history says">
    <p className="lead">{open.history.portName}</p>
    {drift === null || port.design === undefined ? (
      <>
        <h1>No sweep of it can be judged.</h1>
        <p>
          A sweep as found or as left, at a port whose design is in the station file, would be. Open the
          station to see what each of these says.
        </p>
      </>
    ) : (
      <>
        <h1>{headline(drift)}</h1>
        <Said drift={drift} design={port.design} />
        {drift.state !== 'too-few' && <Slopes drift={drift} reserve={reserve} design={port.design} />}
        <Broken drift={drift} design={port.design} />
        <p className="quiet">{basisWords(drift)}</p>
      </>
    )}
    <HistorySweeps open={open} />
  </aside>
);

function headline(drift: StationDrift): string {
  switch (drift.state) {
    case 'too-few':
      return 'No trend yet';
    case 'drifting':
    case 'steady':
    case 'unsure':
      return capital(driftWords(drift));
  }
}

/** When the figure that moves leaves its limit, or what is missing to say so. */
function Said({ drift, design }: Readonly<{ drift: StationDrift; design: Design }>) {
  const newest = drift.segments.at(-1);
  const newestMs = newest?.points.at(-1)?.atMs ?? 0;
  const trend = drift.figures.find(({ of }) => of === drift.says)?.trend ?? null;
  const leaves = trend === null || drift.state !== 'drifting' ? null : leavingWords(trend, newestMs);
  return (
    <>
      <p className="history__leaves">
        {trend === null
          ? missingWords(drift)
          : leaves !== null &&
            drift.says !== null && (
              <HowText
                how={howLeaving(figureOf(drift.says, design), trend, leaves)}
                text={leaves}
                figure={whenIn(leaves)}
              />
            )}
      </p>
      {newest !== undefined && <p className="quiet">{sinceWords(newest)}</p>}
    </>
  );
}

/** The days or years of such a sentence; all of it where it names none. */
const whenIn = (said: string): string => /(?:between|before|for|in) (.+)\.$/.exec(said)?.[1] ?? said;

type SlopesProps = Readonly<{ drift: StationDrift; reserve: ReserveTrend; design: Design }>;

function Slopes({ drift, reserve, design }: SlopesProps) {
  const unit = useSelected(selectTemperatureUnit);
  const left = reserve.values.at(-1);
  const ofReserve: FollowedFigure = { of: 'reserve', name: figureNames.reserve, limits: reserve.limits };
  return (
    <table className="history__slopes">
      <caption className="unseen">Each figure now and its trend</caption>
      <thead>
        <tr>
          <th scope="col">dB</th>
          <th scope="col">now</th>
          <th scope="col">a year, 95 %</th>
          <th scope="col">drifts</th>
        </tr>
      </thead>
      <tbody>
        {drift.figures.map(({ of, trend, values }) => {
          const now = values.at(-1)?.valueDb ?? null;
          const figure = figureOf(of, design);
          return (
            <tr key={of}>
              <th scope="row">{figureNames[of]}</th>
              <td>
                {now === null ? (
                  '\u2013'
                ) : (
                  <Pressed
                    how={howFigureNow(figure, now, basisWords(drift))}
                    text={of === 'flatness' ? oneDecimal(now) : signedDecimal(now)}
                  />
                )}
              </td>
              <td>
                {trend === null ? (
                  '\u2013'
                ) : (
                  <Pressed how={howSlope(figure, trend, unit)} text={slopeWords(trend)} />
                )}
              </td>
              <td>
                {trend === null ? (
                  '\u2013'
                ) : drifts(of, trend) ? (
                  <strong>{driftsWords(of, trend)}</strong>
                ) : (
                  driftsWords(of, trend)
                )}
              </td>
            </tr>
          );
        })}
        {left !== undefined && (
          <tr>
            <th scope="row">{`${figureNames.reserve}, from the rule`}</th>
            <td>
              <Pressed how={howFigureNow(ofReserve, left.valueDb, '')} text={signedDecimal(left.valueDb)} />
            </td>
            <td>
              {reserve.trend === null ? (
                '\u2013'
              ) : (
                <Pressed how={howSlope(ofReserve, reserve.trend, unit)} text={slopeWords(reserve.trend)} />
              )}
            </td>
            <td>set anew</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

/** A figure of the table, which its row and its column name. */
const Pressed = ({ how, text }: Readonly<{ how: How; text: string }>) => (
  <HowButton how={how} label={`${how.title}, ${text}`} className="how-button--quiet">
    <span className="how-button__figure">{text}</span>
  </HowButton>
);

const timesWords = (count: number): string => (count === 1 ? 'once' : `${count} times`);

/** Which rules were broken, by name, and how often. */
function Broken({ drift, design }: Readonly<{ drift: StationDrift; design: Design }>) {
  const found = drift.figures.flatMap(({ of, signals, chart }) =>
    ruleIds.flatMap((rule) => {
      const count = signals.filter((signal) => signal.rule === rule).length;
      return count === 0 || chart === null ? [] : [{ key: `${of} ${rule}`, of, rule, count, chart }];
    }),
  );
  if (found.length === 0) return null;
  return (
    <ul className="history__rules" aria-label="Rules of the control chart that were broken">
      {found.map(({ key, of, rule, count, chart }) => (
        <li key={key}>
          <strong>{figureNames[of]}</strong> {rules[rule].words},{' '}
          <HowButton
            how={howRule(figureOf(of, design), rule, count, chart)}
            label={`${figureNames[of]} ${rules[rule].words}, ${timesWords(count)}`}
            className="how-button--quiet"
          >
            <span className="how-button__figure">{timesWords(count)}</span>
          </HowButton>{' '}
          <small>{rules[rule].name}</small>
        </li>
      ))}
    </ul>
  );
}
