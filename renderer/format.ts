import type { LevelUnitName } from '../core/bridge/settings-calls.ts';
import { levelFrom, levelIn } from '../core/units.ts';
import { monthNames } from '../core/words/month-names.ts';
import * as numbers from '../core/words/numbers.ts';
import { type Manner, usualManner } from './manner.ts';

export { capital, counted, levelWord, type TemperatureUnit } from '../core/words/numbers.ts';

/** Set once, when the page begins: how this system writes. Every text of this file follows it. */
let manner: Manner = usualManner;
export const writeAs = (next: Manner): void => {
  manner = next;
};
export const writtenAs = (): Manner => manner;

/** Figures and sentences that core made with a point, in the signs of this system: "0.4" becomes "0,4" where that is the custom. */
export const asWritten = (text: string): string =>
  manner.decimal === '.' ? text : text.replace(/(\d)\.(?=\d)/g, '$1,');

const inManner =
  <Given extends readonly unknown[]>(make: (...given: Given) => string) =>
  (...given: Given): string =>
    asWritten(make(...given));

/**
 * Numbers are turned into text in core, so that the report prints what the screens show; a page writes them with the signs of
 * its system, and has here what only a page needs.
 */
export const bareLevel = inManner(numbers.bareLevel);
export const bareMhz = inManner(numbers.bareMhz);
export const lengthWords = inManner(numbers.lengthWords);
export const level = inManner(numbers.level);
export const mhz = inManner(numbers.mhz);
export const oneDecimal = inManner(numbers.oneDecimal);
export const plugIn = inManner(numbers.plugIn);
export const plusMinus = inManner(numbers.plusMinus);
export const signedDb = inManner(numbers.signedDb);
export const signedDecimal = inManner(numbers.signedDecimal);
export const sizeDb = inManner(numbers.sizeDb);
export const sureWords = inManner(numbers.sureWords);
export const temperature = inManner(numbers.temperature);

/** "10 000": a large count, with a thin space for the thousands, which nobody takes for a fraction (ISO 80000-1). */
export const whole = (count: number): string =>
  String(Math.round(count)).replace(/\B(?=(?:\d{3})+$)/g, '\u202F');

/** "2.10": so many digits after the decimal sign; a size, without a sign of its own. */
export const decimals = (size: number, digits: number): string => asWritten(size.toFixed(digits));

/** Keeps a number and its unit on one line. */
const NARROW = '\u00A0';

/** A level as the number that a field shows, and back; NaN where a field is empty or holds no level. */
export const levelNumber = (levelDbmv: number, unit: LevelUnitName): number => {
  const shown = levelIn(numbers.levelUnits[unit].unit, levelDbmv);
  return shown.ok ? shown.value : Number.NaN;
};
export const levelFromNumber = (value: number, unit: LevelUnitName): number => {
  const typed = levelFrom(numbers.levelUnits[unit].unit, value);
  return typed.ok ? typed.value : Number.NaN;
};

const pad = (value: number): string => String(value).padStart(2, '0');

/** "09:12", or "9:12 am" where that is the custom: the clock at this place. */
export function clock(moment: string): string {
  const at = new Date(moment);
  const hours = at.getHours();
  if (manner.hours === 24) return `${pad(hours)}:${pad(at.getMinutes())}`;
  return `${hours % 12 || 12}:${pad(at.getMinutes())}${NARROW}${hours < 12 ? 'am' : 'pm'}`;
}

/** "today 09:12", "14 March", "14 March 2024": as near as the reader needs it. */
export function day(moment: string, now: string): string {
  const at = new Date(moment);
  const today = new Date(now);
  const sameYear = at.getFullYear() === today.getFullYear();
  if (sameYear && at.getMonth() === today.getMonth() && at.getDate() === today.getDate())
    return `today ${clock(moment)}`;
  const date = `${at.getDate()}${NARROW}${monthNames[at.getMonth()] ?? ''}`;
  return sameYear ? date : `${date} ${at.getFullYear()}`;
}

/** "14 March 2024, 09:12": for what is read elsewhere and later. */
export function moment(at: string): string {
  const then = new Date(at);
  return `${then.getDate()}${NARROW}${monthNames[then.getMonth()] ?? ''} ${then.getFullYear()}, ${clock(at)}`;
}

/** "14 January" of "2025-01-14": a day of any year. */
export function dayOfYear(date: string): string {
  const [, month = '', at = ''] = date.split('-');
  return `${Number(at)}${NARROW}${monthNames[Number(month) - 1] ?? month}`;
}

/** "15 January 2027" of "2027-01-15" */
export const fullDay = (date: string): string => `${dayOfYear(date)} ${date.slice(0, 4)}`;

/** "12 s", "2 min 05 s": time left, never finer than a person can use. */
export function duration(milliseconds: number): string {
  const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
  if (seconds < 60) return `${seconds}${NARROW}s`;
  return `${Math.floor(seconds / 60)}${NARROW}min ${pad(seconds % 60)}${NARROW}s`;
}
