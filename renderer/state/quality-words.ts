import { type DriftTrend, drifts } from '../../core/drift/drift-trend.ts';
import { type LeavingSaid, leavingSaid } from '../../core/drift/drift-words.ts';
import type { Followed } from '../../core/drift/figures.ts';
import { REGRESSION_FROM, REGRESSION_SPREAD_C } from '../../core/drift/normalize.ts';
import type { Segment, SegmentCause } from '../../core/drift/segments.ts';
import type { StationDrift } from '../../core/drift/station-drift.ts';
import { counted, decimals, fullDay, oneDecimal, plugIn } from '../format.ts';
import type { ShownFigure } from './quality-slice.ts';

const NARROW = '\u00A0';
const DAY_MS = 86_400_000;

/** "12 days", "7 weeks", "5 months", "3 years": how long ago, as near as anybody plans by. */
export function ageWords(fromMs: number, nowMs: number): string {
  const days = Math.max(0, Math.floor((nowMs - fromMs) / DAY_MS));
  if (days === 0) return 'today';
  if (days < 21) return `${counted(days, 'day', 'days')} ago`;
  if (days < 90) return `${Math.round(days / 7)}${NARROW}weeks ago`;
  if (days < 730) return `${Math.round(days / 30.44)}${NARROW}months ago`;
  return `${Math.round(days / 365.25)}${NARROW}years ago`;
}

/** "15 January 2027" of a moment, by the clock at this place. */
export function dayWords(ms: number): string {
  const at = new Date(ms);
  const two = (value: number) => String(value).padStart(2, '0');
  return fullDay(`${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`);
}

/** "January 2027": a date of a forecast, which deserves no day. */
export const monthWords = (ms: number): string => dayWords(ms).replace(/^\S+\s/, '');

function saidWords(said: LeavingSaid): string {
  switch (said.at) {
    case 'out':
      return 'It is out already.';
    case 'any-day':
      return 'It may be out any day: the trend cannot tell yet.';
    case 'between': {
      const [from, to] = [monthWords(said.earliestMs), monthWords(said.latestMs)];
      return from === to
        ? `It leaves its limit in ${from}.`
        : `It leaves its limit between ${from} and ${to}.`;
    }
    case 'not-before':
      return `It does not leave its limit before ${monthWords(said.earliestMs)}; when, the trend cannot tell yet.`;
    case 'not-within':
      return `It stays within its limit for ${said.years} years, as far as is looked ahead.`;
  }
}

/** When a figure leaves its limit, said as honestly as the trend allows. */
export const leavingWords = (trend: DriftTrend, newestMs: number): string =>
  saidWords(leavingSaid(trend.leaves, newestMs));

/** "+0.6 ±0.2 dB a year" with 95 of 100 times in it. */
export function slopeWords({ perYearDb, toPerYearDb }: DriftTrend): string {
  const size = decimals(Math.abs(perYearDb), 2);
  const sign = Number(size) === 0 ? '' : perYearDb < 0 ? '\u2212' : '+';
  return `${sign}${size} \u00B1${decimals(toPerYearDb - perYearDb, 2)}`;
}

export const figureNames: Readonly<Record<ShownFigure, string>> = {
  level: 'Level, high',
  tilt: 'Tilt',
  flatness: 'Flatness',
  reserve: 'Reserve',
};

/** Whether a figure drifts: "yes", "not seen", or that it goes the way everybody wants. */
export function driftsWords(of: Followed, trend: DriftTrend): string {
  if (drifts(of, trend)) return 'yes';
  return trend.isSure ? 'for the better' : 'not seen';
}

/** How the temperature was taken out. */
export function basisWords(drift: StationDrift): string {
  const left =
    drift.withoutTemperature === 0
      ? ''
      : ` ${counted(drift.withoutTemperature, 'sweep is', 'sweeps are')} left out: nobody wrote down the temperature.`;
  switch (drift.basis) {
    case 'span':
      return `All brought to 20${NARROW}\u00B0C: what the span and the gain control explain is taken out.${left}`;
    case 'regression':
      return `The station file tells no span: what the temperature does was estimated from the sweeps themselves, and taken out.${left}`;
    case 'none':
      return `Not brought to one temperature: the station file tells no span, and to estimate it takes ${REGRESSION_FROM} sweeps over ${REGRESSION_SPREAD_C}${NARROW}\u00B0C.`;
  }
}

function causeWords(cause: SegmentCause): string {
  switch (cause.cause) {
    case 'first':
      return 'the first sweep';
    case 'design':
      return 'a new design';
    case 'adjusted':
      return 'the station was adjusted';
    case 'parts':
      return cause.changes
        .map(({ position, fromDb, toDb }) => `${position} ${plugIn(fromDb)} to ${plugIn(toDb)}`)
        .join(', ');
  }
}

/** "Since 3 March 2025, input pad 4 to 3: 5 sweeps." */
export function sinceWords({ begins, points }: Segment): string {
  const first = points[0];
  return first === undefined
    ? ''
    : `Since ${dayWords(first.atMs)} (${causeWords(begins)}): ${counted(points.length, 'sweep', 'sweeps')}.`;
}

/** What is missing where there is no trend yet. */
export function missingWords(drift: StationDrift): string {
  const newest = drift.segments.at(-1);
  const count = drift.figures[0]?.values.length ?? 0;
  const missing = 3 - count;
  if (missing <= 0)
    return 'The sweeps of this stretch were all read at one time; a trend needs visits apart.';
  const what = `${counted(missing, 'more visit', 'more visits')} with a sweep as found or as left`;
  return newest !== undefined && newest.begins.cause !== 'first'
    ? `What was changed begins a new count: a trend needs ${what}.`
    : `A trend needs ${what}.`;
}

/** "1.2 dB" or a dash where there is none. */
export const maybeDb = (db: number | null): string => (db === null ? '\u2013' : oneDecimal(db));
