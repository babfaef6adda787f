import type { LevelUnitName } from '../core/bridge/settings-calls.ts';
import { levelFrom, levelIn } from '../core/units.ts';
import { levelUnits } from '../core/words/numbers.ts';

/** Numbers are turned into text in core, so that the report prints what the screens show; here are what only a page needs. */
export {
  bareLevel,
  bareMhz,
  capital,
  counted,
  lengthWords,
  level,
  levelWord,
  mhz,
  oneDecimal,
  plugIn,
  plusMinus,
  signedDb,
  signedDecimal,
  sizeDb,
  sureWords,
  type TemperatureUnit,
  temperature,
} from '../core/words/numbers.ts';

/** Keeps a number and its unit on one line. */
const NARROW = '\u00A0';

/** A level as the number that a field shows, and back; NaN where a field is empty or holds no level. */
export const levelNumber = (levelDbmv: number, unit: LevelUnitName): number => {
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  return shown.ok ? shown.value : Number.NaN;
};
export const levelFromNumber = (value: number, unit: LevelUnitName): number => {
  const typed = levelFrom(levelUnits[unit].unit, value);
  return typed.ok ? typed.value : Number.NaN;
};

const pad = (value: number): string => String(value).padStart(2, '0');
const months = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

/** "09:12", the clock at this place. */
export function clock(moment: string): string {
  const at = new Date(moment);
  return `${pad(at.getHours())}:${pad(at.getMinutes())}`;
}

/** "today 09:12", "14 March", "14 March 2024": as near as the reader needs it. */
export function day(moment: string, now: string): string {
  const at = new Date(moment);
  const today = new Date(now);
  const sameYear = at.getFullYear() === today.getFullYear();
  if (sameYear && at.getMonth() === today.getMonth() && at.getDate() === today.getDate())
    return `today ${clock(moment)}`;
  const date = `${at.getDate()}${NARROW}${months[at.getMonth()] ?? ''}`;
  return sameYear ? date : `${date} ${at.getFullYear()}`;
}

/** "14 January" of "2025-01-14": a day of any year. */
export function dayOfYear(date: string): string {
  const [, month = '', at = ''] = date.split('-');
  return `${Number(at)}${NARROW}${months[Number(month) - 1] ?? month}`;
}

/** "15 January 2027" of "2027-01-15" */
export const fullDay = (date: string): string => `${dayOfYear(date)} ${date.slice(0, 4)}`;

/** "12 s", "2 min 05 s": time left, never finer than a person can use. */
export function duration(milliseconds: number): string {
  const seconds = Math.max(0, Math.ceil(milliseconds / 1000));
  if (seconds < 60) return `${seconds}${NARROW}s`;
  return `${Math.floor(seconds / 60)}${NARROW}min ${pad(seconds % 60)}${NARROW}s`;
}
