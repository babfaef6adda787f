import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { DISAGREE_DB } from '../../core/gain-control/advise.ts';
import { type Basis, basisWords } from '../../core/gain-control/basis.ts';
import { BESIDE_NEIGHBOURS_DB, FROM_EDGE_CARRIERS, type PilotCheck } from '../../core/gain-control/pilot.ts';
import {
  RANGE_LIMITS,
  RANGE_LIMITS_HOLD,
  RANGE_UNCERTAINTY_DB,
  type RangeTest,
} from '../../core/gain-control/range.ts';
import { RESERVE_WITHIN_DB, type ReserveVerdict } from '../../core/gain-control/reserve-verdict.ts';
import { MIDDLE_C } from '../../core/gain-control/span-offset.ts';
import { chanceWords } from '../../core/uncertainty/conformity.ts';
import { goodToDb } from '../../core/uncertainty/shares.ts';
import { celsiusFromFahrenheit } from '../../core/units.ts';
import {
  capital,
  level,
  mhz,
  oneDecimal,
  plusMinus,
  signedDb,
  sizeDb,
  type TemperatureUnit,
  temperature,
} from '../format.ts';
import { aDegree, degrees, middleWords } from './degrees.ts';
import { type How, PRACTICE, plainHow } from './how.ts';

const basisSentence = (basis: Basis): string => `${capital(basisWords(basis))}.`;

/** How far below its maximum the control is set. */
export const howReserveRule = (topMhz: number, reserveDb: number, basis: Basis): How =>
  plainHow({
    title: 'Reserve',
    value: sizeDb(reserveDb),
    words: `How far below its greatest gain the control is set, at ${mhz(topMhz)}, so that it can still turn up on the hottest day.`,
    formula: '3.5 dB at 750 MHz, 4.0 at 870, 4.5 at 1000; straight lines between and beyond',
    source: basisSentence(basis),
  });

/** What the day's temperature adds, by the rule. */
export function howAmbientRule(ambientC: number, offsetDb: number, basis: Basis, unit: TemperatureUnit): How {
  const at = (fahrenheit: number) => temperature(celsiusFromFahrenheit(fahrenheit), unit);
  return plainHow({
    title: 'The day\u2019s compensation, by the rule',
    value: signedDb(offsetDb),
    words: `The cable in front is warmer or colder today than in the middle of the year, ${temperature(ambientC, unit)}, so the control stands higher or lower than it will then.`,
    formula: `above ${at(100)} +2 dB, above ${at(80)} +1, from ${at(40)} none, from ${at(20)} \u22121, below \u22122`,
    source: basisSentence(basis),
  });
}

/** What the day's temperature adds, by physics. */
export const howSpanOffset = (
  span: Readonly<{ lossDb: number; perDegreeC: number; isGiven: boolean }>,
  ambientC: number,
  offsetDb: number,
  unit: TemperatureUnit,
): How =>
  plainHow({
    title: 'The day\u2019s compensation, by physics',
    value: signedDb(offsetDb),
    words: `How much more this span of ${sizeDb(span.lossDb)} loses today than at ${middleWords(unit)}, where the rule has its middle.`,
    formula: `${sizeDb(span.lossDb)} \u00B7 ${aDegree(span.perDegreeC, unit)} \u00B7 (${temperature(ambientC, unit)} \u2212 ${middleWords(unit)}), ${degrees(Math.abs(ambientC - MIDDLE_C), unit)} apart`,
    judged: `Where rule and physics differ by more than ${sizeDb(DISAGREE_DB)} it is said; the operator\u2019s procedure decides.`,
    source: span.isGiven
      ? 'The coefficient: the station file.'
      : 'The coefficient, 0.0011 a \u00B0F: tech tip \u201CCoaxial Cable Attenuation Changes versus Temperature\u201D, publisher not shown.',
  });

const limitOf = (part: keyof typeof RANGE_LIMITS): string =>
  `${oneDecimal(RANGE_LIMITS[part].fromDb)} to ${sizeDb(RANGE_LIMITS[part].toDb)}`;

/** What a range test should give. */
export const howRangeLimits = (topMhz: number): How =>
  plainHow({
    title: 'Limits of the range test',
    value: `${limitOf('total')} in all`,
    words: `How far a sound control moves the output above and below the level that was set. In use for ${RANGE_LIMITS_HOLD.fromMhz} to ${RANGE_LIMITS_HOLD.toMhz} MHz; here the top is ${mhz(topMhz)}.`,
    formula: `up ${limitOf('up')}, down ${limitOf('down')}, up + down ${limitOf('total')}`,
    source: PRACTICE,
  });

/** What a range test gave. */
export function howRange(range: RangeTest): How {
  const said = (name: string, valueDb: number, part: keyof typeof RANGE_LIMITS) => ({
    name,
    text: `${sizeDb(valueDb)}, limits ${limitOf(part)}`,
  });
  return plainHow({
    title: 'Range of the control',
    value: `${sizeDb(range.totalDb)} in all`,
    words:
      'The level at each end of the control less the level that was set; each taken where the reading stood still for two seconds.',
    formula: `${sizeDb(range.upDb)} + ${sizeDb(range.downDb)} = ${sizeDb(range.totalDb)}`,
    items: [
      said('Up', range.upDb, 'up'),
      said('Down', range.downDb, 'down'),
      said('In all', range.totalDb, 'total'),
    ],
    judged: `In order: all three inside. Undecided: outside by no more than \u00B1${sizeDb(RANGE_UNCERTAINTY_DB)}, what a hand-held meter is good to between two readings. Else out of its limits.`,
    source: `Limits and \u00B1${sizeDb(RANGE_UNCERTAINTY_DB)}: ${PRACTICE.toLowerCase()} Undecided: guard bands after JCGM 106:2012, 8.3 (from memory).`,
  });
}

/** What the set-up left as reserve. */
export function howReserveLeft(
  reserve: ReserveVerdict,
  read: Readonly<{ maxDbmv: number | null; setDbmv: number | null }>,
  unit: LevelUnitName,
): How {
  const { maxDbmv, setDbmv } = read;
  return plainHow({
    title: 'Reserve that is left',
    value: `${sizeDb(reserve.measuredDb)} ${plusMinus(goodToDb(reserve.uDb))}\u00A0dB`,
    words:
      'The greatest gain less the level that was set: two readings of one carrier with one meter, so that what both have in common falls out and only what the meter repeats to is left.',
    formula:
      maxDbmv === null || setDbmv === null
        ? 'maximum \u2212 set level'
        : `${level(maxDbmv, unit)} \u2212 ${level(setDbmv, unit)} = ${sizeDb(reserve.measuredDb)}`,
    judged: `The rule asks for ${sizeDb(reserve.askedDb)} on that day, ${sizeDb(RESERVE_WITHIN_DB)} either way. The chance that it lies inside is ${chanceWords(reserve.probability)}.`,
    source: `The rule and its ${sizeDb(RESERVE_WITHIN_DB)}: ${PRACTICE.toLowerCase()} Uncertainty: JCGM 100:2008, 5.2.2. Chance: JCGM 106:2012, 7.2 to 7.4 (7.3 confirmed, the others from memory); good or not from 95 in 100.`,
  });
}

/** Where a step's level should go. */
export const howTarget = (
  target: Readonly<{ levelDbmv: number; toleranceDb: number; basis: 'design' | Basis; words: string }>,
  unit: LevelUnitName,
): How =>
  plainHow({
    title: 'Where it should go',
    value: level(target.levelDbmv, unit),
    words: `${capital(target.words)}.`,
    formula: `within \u00B1${sizeDb(target.toleranceDb)} for two seconds`,
    source:
      target.basis === 'design'
        ? 'The station file\u2019s design. How near and for how long: common practice, no published source.'
        : `${basisSentence(target.basis)} How near and for how long: ${PRACTICE.toLowerCase()}`,
  });

/** Whether a carrier is fit to be the pilot. */
export const howPilot = (pilot: PilotCheck, unit: LevelUnitName): How =>
  plainHow({
    title: `Is ${mhz(pilot.pilotMhz)} fit to be the pilot?`,
    value:
      pilot.levelDbmv === null
        ? 'not read'
        : `${level(pilot.levelDbmv, unit)}${pilot.besideDb === null ? '' : `, ${signedDb(pilot.besideDb)}`}`,
    words:
      'Its level less the middle of the carriers around it, the slope of the design taken out, as many on each side.',
    formula: 'level(f) \u2212 target(f) \u2212 median of the same of its neighbours',
    items: pilot.warnings.map(({ words }, i) => ({ name: `${i + 1}`, text: words })),
    judged: `Not suitable: OFDM, more than ${sizeDb(BESIDE_NEIGHBOURS_DB)} beside its neighbours, in a notch or a roll-off, or among the ${FROM_EDGE_CARRIERS} carriers at an edge. Others are offered from four fifths of the band on, where the control hears most of the cable.`,
    source: PRACTICE,
  });
