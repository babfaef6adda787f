import type { StationRow } from '../../core/bridge/records.ts';
import { asWritten, capital, day } from '../format.ts';
import { topics } from '../help/glossary.ts';
import type { Term } from '../help/term.ts';
import { type Action, actionsOf } from './search-actions.ts';
import type { Found } from './search-slice.ts';
import { nearest, wordsOf } from './search-words.ts';
import type { State } from './store.ts';

/** Where a result leads. */
export type Goal =
  | Readonly<{ to: 'station'; stationId: string }>
  | Readonly<{ to: 'sweep'; stationId: string; portName: string; sweepId: string }>
  | Readonly<{ to: 'term'; term: string }>
  | Readonly<{ to: 'action'; action: Action }>;
export type Result = Readonly<{ id: string; name: string; about: string; goal: Goal }>;
export type ResultGroup = Readonly<{ name: string; results: readonly Result[] }>;

const MOST = 6;
/** How many of each kind the archive is asked for. */
export const MOST_RECORDS = MOST;

const stationResult = ({ stationId, name, standing, openVisit }: StationRow, isOpen: boolean): Result => ({
  id: `station ${stationId}`,
  name,
  about: isOpen
    ? 'open now'
    : [asWritten(standing?.headline ?? 'not yet read'), ...(openVisit ? ['visit open'] : [])].join(', '),
  goal: { to: 'station', stationId },
});

const termResult = (term: Term): Result => ({
  id: `term ${term.id}`,
  name: term.name,
  about: term.words.replace(/\. .*$/u, '.'),
  goal: { to: 'term', term: term.id },
});

const actionResult = (action: Action): Result => ({
  id: `action ${action.id}`,
  name: action.name,
  about: action.about ?? '',
  goal: { to: 'action', action },
});

const visitResults = ({ visits }: Found, now: string): readonly Result[] =>
  visits.map(({ visitId, stationId, stationName, operator, note, startedAt, sweep }) => ({
    id: `visit ${visitId}`,
    name: `${stationName}, ${day(startedAt, now)}`,
    about: [operator, note].filter((words) => words !== '').join(': '),
    goal: sweep === null ? { to: 'station', stationId } : { to: 'sweep', stationId, ...sweep },
  }));

const sweepResults = ({ sweeps }: Found, now: string): readonly Result[] =>
  sweeps.map(({ sweepId, stationId, stationName, portName, purpose, operator, fileName, startedAt }) => ({
    id: `sweep ${sweepId}`,
    name: `${capital(purpose.replace('-', ' '))}, ${portName}, ${stationName}`,
    about: [day(startedAt, now), operator, ...(fileName === null ? [] : [fileName])]
      .filter((words) => words !== '')
      .join(', '),
    goal: { to: 'sweep', stationId, portName, sweepId },
  }));

const terms = topics.flatMap((topic) => topic.terms);

/** What a text finds, by kind, each kind with its best few; what nothing was found of is left out. */
export function resultsOf(state: State, text: string, now: string): readonly ResultGroup[] {
  const words = wordsOf(text);
  const actions = actionsOf(state);
  if (words.length === 0) return [{ name: 'From here', results: actions.slice(0, 8).map(actionResult) }];
  const rows = state.stations.at === 'listed' ? state.stations.rows : [];
  const openId = state.sheet.at === 'open' ? state.sheet.sheet.station.id : null;
  const found = state.found.forText === text ? state.found : null;
  const groups: readonly ResultGroup[] = [
    {
      name: 'Stations',
      results: nearest(rows, words, ({ name, stationId }) => `${name} ${stationId}`, MOST).map((row) =>
        stationResult(row, row.stationId === openId),
      ),
    },
    {
      name: 'Screens and actions',
      results: nearest(actions, words, ({ name, also }) => `${name} ${also}`, MOST).map(actionResult),
    },
    {
      name: 'Words of the trade',
      results: nearest(terms, words, ({ name, also }) => `${name} ${also.join(' ')}`, MOST).map(termResult),
    },
    { name: 'Visits', results: found === null ? [] : visitResults(found, now) },
    { name: 'Sweeps', results: found === null ? [] : sweepResults(found, now) },
  ];
  return groups.filter(({ results }) => results.length > 0);
}
