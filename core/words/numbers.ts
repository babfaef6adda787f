import { fahrenheitFromCelsius, feetFromMetres, type LevelUnit, levelIn } from '../units.ts';

/** The one place that turns numbers into text: digits, signs and units. A meter deserves one decimal of a dB. */
const MINUS = '\u2212';
/** Keeps a number and its unit on one line. */
const NARROW = '\u00A0';

/** What levels may be shown in. dBm alone is that of 75 ohm; that of 50 ohm is dBm/50. */
export type LevelUnitWord = 'dBmV' | 'dBuV' | 'dBm75' | 'dBm50' | 'mV';
export type TemperatureUnit = 'C' | 'F';

export const levelUnits: Readonly<Record<LevelUnitWord, Readonly<{ unit: LevelUnit; word: string }>>> = {
  dBmV: { unit: 'dBmV', word: 'dBmV' },
  dBuV: { unit: 'dBuV', word: 'dB\u00B5V' },
  dBm75: { unit: 'dBm 75 ohm', word: 'dBm' },
  dBm50: { unit: 'dBm 50 ohm', word: 'dBm/50' },
  mV: { unit: 'mV', word: 'mV' },
};

function tenths(value: number): string {
  const text = Math.abs(value).toFixed(1);
  return value < 0 && Number(text) !== 0 ? `${MINUS}${text}` : text;
}

/**
 * "43.9": a level or a size whose unit stands beside it.
 * @param value  dB or dBmV
 * @source   this program's own: one decimal, a true minus, no minus before nought
 */
export const oneDecimal = (value: number): string => tenths(value);

/**
 * "+0.4", "−2.1", "0.0": where the sign is the point.
 * @param valueDb  dB
 * @source   see `oneDecimal`
 */
export function signedDecimal(valueDb: number): string {
  const text = tenths(valueDb);
  return valueDb > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/**
 * "dBmV", "dBµV", "dBm", "dBm/50", "mV": what levels are shown in.
 * @source   this program's own
 */
export const levelWord = (unit: LevelUnitWord): string => levelUnits[unit].word;

/**
 * "43.9", "103.9", "−4.9", "157": a level whose unit stands beside it. Millivolts have three digits.
 * @param levelDbmv  dBmV
 * @returns  "?" for what is no level
 * @source   see `oneDecimal`
 */
export function bareLevel(levelDbmv: number, unit: LevelUnitWord): string {
  const shown = levelIn(levelUnits[unit].unit, levelDbmv);
  if (!shown.ok) return '?';
  if (unit !== 'mV') return tenths(shown.value);
  // No exponents: a test point may well carry 0.05 mV, and a trunk 1200.
  const digits = Math.max(0, Math.min(6, 2 - Math.floor(Math.log10(shown.value))));
  return shown.value.toFixed(digits);
}

/**
 * "43.9 dBmV", "103.9 dBµV"
 * @param levelDbmv  dBmV
 * @source   see `oneDecimal`
 */
export const level = (levelDbmv: number, unit: LevelUnitWord): string =>
  `${bareLevel(levelDbmv, unit)}${NARROW}${levelWord(unit)}`;

/**
 * "±0.4": what a figure is good to. Less than a tenth of a dB is never claimed.
 * @param goodToDb  dB, 0 or more
 * @source   see `oneDecimal`
 */
export const plusMinus = (goodToDb: number): string => `\u00B1${Math.max(0.1, goodToDb).toFixed(1)}`;

/**
 * "100 m" or "328 ft"
 * @param lengthM  metres
 * @source   this program's own
 */
export const lengthWords = (lengthM: number, unit: 'm' | 'ft'): string =>
  `${Math.round(unit === 'm' ? lengthM : feetFromMetres(lengthM))}${NARROW}${unit}`;

/**
 * "sure", "97 % sure", or for what is undecided "80 % inside": how certain a verdict is.
 * @param probability  of lying inside, 0 to 1
 * @source   this program's own; the verdict: JCGM 106:2012, 8.3 (from memory)
 */
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

/**
 * "2.1 dB", without a sign: how far or how much.
 * @param valueDb  dB
 * @source   see `oneDecimal`
 */
export const sizeDb = (valueDb: number): string => `${tenths(Math.abs(valueDb))}${NARROW}dB`;

/**
 * "−2.1 dB", "+0.4 dB"
 * @param valueDb  dB
 * @source   see `oneDecimal`
 */
export const signedDb = (valueDb: number): string => `${signedDecimal(valueDb)}${NARROW}dB`;

/**
 * "867", "711.25": a frequency with the digits that it has, at most two.
 * @param frequencyMhz  MHz
 * @source   this program's own
 */
export const bareMhz = (frequencyMhz: number): string => String(Number(frequencyMhz.toFixed(2)));

/**
 * "867 MHz"
 * @param frequencyMhz  MHz
 * @source   see `bareMhz`
 */
export const mhz = (frequencyMhz: number): string => `${bareMhz(frequencyMhz)}${NARROW}MHz`;

/**
 * "8", "4.5": the value printed on a plug-in.
 * @param valueDb  dB
 * @source   this program's own
 */
export const plugIn = (valueDb: number): string => String(Number(valueDb.toFixed(2))).replace('-', MINUS);

/**
 * "31 °C" or "88 °F"
 * @param temperatureC  degrees C
 * @source   this program's own
 */
export function temperature(temperatureC: number, unit: TemperatureUnit): string {
  const shown = Math.round(unit === 'C' ? temperatureC : fahrenheitFromCelsius(temperatureC));
  return `${String(shown).replace('-', MINUS)}${NARROW}°${unit}`;
}

/**
 * "1 channel", "136 channels"
 * @source   this program's own
 */
export const counted = (count: number, one: string, many: string): string =>
  `${count}${NARROW}${count === 1 ? one : many}`;

/**
 * A sentence's first letter, for names of positions at the start of a line: "Input pad".
 * @source   this program's own
 */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
