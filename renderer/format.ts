import type { LevelUnitName } from '../core/bridge/settings-calls.ts';
import { fahrenheitFromCelsius, feetFromMetres, type LevelUnit, levelFrom, levelIn } from '../core/units.ts';

/** The one place that turns numbers into text: digits, signs and units. A meter deserves one decimal of a dB. */
const MINUS = '\u2212';
/** Keeps a number and its unit on one line. */
const NARROW = '\u00A0';

function tenths(value: number): string {
  const text = Math.abs(value).toFixed(1);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/** "43.9": a level or a size whose unit stands beside it. */
export const oneDecimal = (value: number): string => tenths(value);

/** "+0.4", "−2.1", "0.0": where the sign is the point. */
export function signedDecimal(valueDb: number): string {
  const text = tenths(valueDb);
  return valueDb > 0 && Number(text) !== 0 ? `+${text}` : text;
}

const levelUnits: Record<LevelUnitName, Readonly<{ unit: LevelUnit; word: string }>> = {
  dBmV: { unit: 'dBmV', word: 'dBmV' },
  dBuV: { unit: 'dBuV', word: 'dB\u00B5V' },
  dBm75: { unit: 'dBm 75 ohm', word: 'dBm' },
  mV: { unit: 'mV', word: 'mV' },
};

/** "dBmV", "dBµV", "dBm", "mV": what levels are shown in. dBm is always that of 75 ohm. */
export const levelWord = (unit: LevelUnitName): string => levelUnits[unit].word;

/** "43.9", "103.9", "−4.9", "157": a level whose unit stands beside it. Millivolts have three digits. */
export function bareLevel(levelDbmv: number, unit: LevelUnitName): string {
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  if (!shown.ok) return '?';
  if (unit !== 'mV') return tenths(shown.value);
  // No exponents: a test point may well carry 0.05 mV, and a trunk 1200.
  const digits = Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(shown.value))));
  return shown.value.toFixed(digits);
}

/** A level as the number that a field shows, and back; NaN where a field is empty or holds no level. */
export const levelNumber = (levelDbmv: number, unit: LevelUnitName): number => {
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  return shown.ok ? shown.value : Number.NaN;
};
export const levelFromNumber = (value: number, unit: LevelUnitName): number => {
  const typed = levelFrom(levelUnits[unit].unit, value);
  return typed.ok ? typed.value : Number.NaN;
};

/** "43.9 dBmV", "103.9 dBµV" */
export const level = (levelDbmv: number, unit: LevelUnitName): string =>
  `${bareLevel(levelDbmv, unit)}${NARROW}${levelWord(unit)}`;

/** "±0.4", "±0.4 dB": what a figure is good to. Less than a tenth of a dB is never claimed. */
export const plusMinus = (goodToDb: number): string => `\u00B1${Math.max(0.1, goodToDb).toFixed(1)}`;

/** "100 m" or "328 ft" */
export const lengthWords = (lengthM: number, unit: 'm' | 'ft'): string =>
  `${Math.round(unit === 'm' ? lengthM : feetFromMetres(lengthM))}${NARROW}${unit}`;

/** "sure", "97 % sure", or for what is undecided "80 % inside": how certain a verdict is. */
export function sureWords(verdict: 'pass' | 'fail' | 'undecided', probability: number): string {
  const percent = (share: number, least: number, most: number) =>
    `${Math.min(most, Math.max(least, Math.round(share * 100)))}${NARROW}%`;
  switch (verdict) {
    case 'undecided':
      // Rounding must not say 95, which would be a pass, nor 5.
      return `${percent(probability, 6, 94)} inside`;
    case 'pass':
      return probability >= 0.995 ? 'sure' : `${percent(probability, 95, 99)} sure`;
    case 'fail':
      return probability <= 0.005 ? 'sure' : `${percent(1 - probability, 95, 99)} sure`;
  }
}

/** "2.1 dB", without a sign: how far or how much. */
export const sizeDb = (valueDb: number): string => `${tenths(Math.abs(valueDb))}${NARROW}dB`;

/** "−2.1 dB", "+0.4 dB" */
export const signedDb = (valueDb: number): string => `${signedDecimal(valueDb)}${NARROW}dB`;

/** "867", "711.25": a frequency with the digits that it has, at most two. */
export const bareMhz = (frequencyMhz: number): string => String(Number(frequencyMhz.toFixed(2)));

/** "867 MHz" */
export const mhz = (frequencyMhz: number): string => `${bareMhz(frequencyMhz)}${NARROW}MHz`;

/** "8", "4.5": the value printed on a plug-in. */
export const plugIn = (valueDb: number): string => String(Number(valueDb.toFixed(2))).replace('-', MINUS);

export type TemperatureUnit = 'C' | 'F';

/** "31 °C" or "88 °F" */
export function temperature(temperatureC: number, unit: TemperatureUnit): string {
  const shown = Math.round(unit === 'C' ? temperatureC : fahrenheitFromCelsius(temperatureC));
  return `${String(shown).replace('-', MINUS)}${NARROW}°${unit}`;
}

/** "1 channel", "136 channels" */
export const counted = (count: number, one: string, many: string): string =>
  `${count}${NARROW}${count === 1 ? one : many}`;

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

/** A sentence's first letter, for names of positions at the start of a line: "Input pad". */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
