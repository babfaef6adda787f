import { drifts } from '../../../core/drift/drift-trend.ts';
import { driftWords } from '../../../core/drift/drift-words.ts';
import type { ReserveTrend } from '../../../core/drift/reserve-trend.ts';
import { ruleIds, rules } from '../../../core/drift/run-rules.ts';
import type { StationDrift } from '../../../core/drift/station-drift.ts';
import { capital, oneDecimal, signedDecimal } from '../../format.ts';
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
import type { OpenHistory } from './HistoryScreen.tsx';
import { HistorySweeps } from './HistorySweeps.tsx';

export type HistorySideProps = Readonly<{ open: OpenHistory; view: HistoryView }>;

/** What the history comes to, in words and figures, and every sweep of it. */
export const HistorySide = ({ open, view: { drift, reserve } }: HistorySideProps) => (
  <aside className="side history__side" aria-label="What the history says">
    <p className="lead">{open.history.portName}</p>
    {drift === null ? (
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
        <Said drift={drift} />
        {drift.state !== 'too-few' && <Slopes drift={drift} reserve={reserve} />}
        <Broken drift={drift} />
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
function Said({ drift }: Readonly<{ drift: StationDrift }>) {
  const newest = drift.segments.at(-1);
  const newestMs = newest?.points.at(-1)?.atMs ?? 0;
  const trend = drift.figures.find(({ of }) => of === drift.says)?.trend ?? null;
  return (
    <>
      <p className="history__leaves">
        {trend === null
          ? missingWords(drift)
          : drift.state === 'drifting'
            ? leavingWords(trend, newestMs)
            : ''}
      </p>
      {newest !== undefined && <p className="quiet">{sinceWords(newest)}</p>}
    </>
  );
}

type SlopesProps = Readonly<{ drift: StationDrift; reserve: ReserveTrend }>;

function Slopes({ drift, reserve }: SlopesProps) {
  const left = reserve.values.at(-1);
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
          return (
            <tr key={of}>
              <th scope="row">{figureNames[of]}</th>
              <td>{now === null ? '\u2013' : of === 'flatness' ? oneDecimal(now) : signedDecimal(now)}</td>
              <td>{trend === null ? '\u2013' : slopeWords(trend)}</td>
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
            <td>{signedDecimal(left.valueDb)}</td>
            <td>{reserve.trend === null ? '\u2013' : slopeWords(reserve.trend)}</td>
            <td>set anew</td>
          </tr>
        )}
      </tbody>
    </table>
  );
}

/** Which rules were broken, by name, and how often. */
function Broken({ drift }: Readonly<{ drift: StationDrift }>) {
  const found = drift.figures.flatMap(({ of, signals }) =>
    ruleIds.flatMap((rule) => {
      const count = signals.filter((signal) => signal.rule === rule).length;
      return count === 0 ? [] : [{ key: `${of} ${rule}`, of, rule, count }];
    }),
  );
  if (found.length === 0) return null;
  return (
    <ul className="history__rules" aria-label="Rules of the control chart that were broken">
      {found.map(({ key, of, rule, count }) => (
        <li key={key}>
          <strong>{figureNames[of]}</strong> {rules[rule].words}
          {count > 1 ? `, ${count} times` : ''} <small>{rules[rule].name}</small>
        </li>
      ))}
    </ul>
  );
}
