import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { wayWords } from '../../core/trend/which-way.ts';
import { trendWords } from '../../core/trend/words.ts';
import { bareLevel, oneDecimal, sizeDb } from '../format.ts';
import type { LevelGoal, LevelMoment } from './level-moment.ts';

/** Dashes as wide as a level: where no number is, nothing may be taken for one. */
export const DASHES = '––.–';

const levelOrDashes = (levelDbmv: number | null, unit: LevelUnitName): string =>
  levelDbmv === null ? DASHES : bareLevel(levelDbmv, unit);

export const numberWords = ({ levelDbmv }: LevelMoment, unit: LevelUnitName = 'dBmV'): string =>
  levelOrDashes(levelDbmv, unit);

/** "0.9 down", "on target", or nothing while there is no distance to tell. */
export function distanceWords({ offDb, inside }: LevelMoment): string {
  if (offDb === null) return '';
  if (inside) return 'on target';
  return `${oneDecimal(Math.abs(offDb))} ${offDb > 0 ? 'down' : 'up'}`;
}

/** What the hand should do, or what the level does where nothing is aimed at. */
export function handWords(moment: LevelMoment): string {
  switch (moment.at) {
    case 'silent':
      return 'not reading';
    case 'stale':
      return 'no reading: take the hand off';
    case 'no-level':
      return 'the meter finds no level here';
    case 'live':
      if (moment.way !== null) return wayWords(moment.trend, moment.way);
      return moment.trend === null ? 'reading' : moment.trend.direction;
  }
}

/** "falling 0.6 dB in 2 s" under the word. */
export const trendDetail = (moment: LevelMoment): string =>
  moment.at === 'live' && moment.trend !== null ? trendWords(moment.trend) : '';

/** "14 readings a second, 0.1 s ago" */
export function ageWords({ at, ageS, perSecond }: LevelMoment): string {
  if (at === 'silent' || ageS === null) return 'no reading yet';
  const age = ageS >= 60 ? `${Math.round(ageS / 60)} min` : `${ageS.toFixed(1)} s`;
  if (at === 'stale') return `last reading ${age} ago`;
  return perSecond === null ? `${age} ago` : `${Math.round(perSecond)} readings a second, ${age} ago`;
}

/** What the target is, under the distance. */
export function goalWords(goal: LevelGoal, about: string, unit: LevelUnitName = 'dBmV'): string {
  switch (goal.kind) {
    case 'target':
      return `to ${bareLevel(goal.levelDbmv, unit)}${about === '' ? '' : `, ${about}`}`;
    case 'end':
      return goal.end === 'low' ? 'to the end that gives least' : 'to the end that gives most';
    case 'none':
      return about;
  }
}

/** One line for whoever listens to the screen. */
export function spokenWords(moment: LevelMoment, unit: LevelUnitName = 'dBmV'): string {
  if (moment.at !== 'live') return handWords(moment);
  return [numberWords(moment, unit), distanceWords(moment), handWords(moment)]
    .filter((part) => part !== '')
    .join(', ');
}

/** "within ±0.2 dB" */
export const toleranceWords = (toleranceDb: number): string => `±${sizeDb(toleranceDb)}`;

/** What the style sheet follows: `inside` on the target, else whether the number is alive. */
export const stateWords = (moment: LevelMoment): string => (moment.inside ? 'inside' : moment.at);

/** The words of one level in one unit: one function each and always the same ones, so that nothing is drawn anew. */
const wordsIn = (unit: LevelUnitName) => ({
  dial: {
    number: (moment: LevelMoment) => numberWords(moment, unit),
    distance: distanceWords,
    hand: handWords,
    detail: trendDetail,
    state: stateWords,
  },
  highest: ({ highestDbmv }: LevelMoment) => levelOrDashes(highestDbmv, unit),
  lowest: ({ lowestDbmv }: LevelMoment) => levelOrDashes(lowestDbmv, unit),
  spoken: (moment: LevelMoment) => spokenWords(moment, unit),
});
export const levelWordsIn: Readonly<Record<LevelUnitName, ReturnType<typeof wordsIn>>> = {
  dBmV: wordsIn('dBmV'),
  dBuV: wordsIn('dBuV'),
  dBm75: wordsIn('dBm75'),
  dBm50: wordsIn('dBm50'),
  mV: wordsIn('mV'),
};
