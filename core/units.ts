import { done, type Result, refuse } from './result.ts';

/** dBmV of 1 mW in 75 ohm: 10 log10(75 ohm * 1 mW / (1 mV)^2). */
const DBMV_AT_0_DBM_75 = 10 * Math.log10((75 * 1e-3) / 1e-6);
/** dBmV of 1 mW in 50 ohm. */
const DBMV_AT_0_DBM_50 = 10 * Math.log10((50 * 1e-3) / 1e-6);
const FEET_PER_METRE = 1 / 0.3048;

/**
 * @param levelDbuv  dBuV
 * @returns  dBmV
 * @source   definitions (1 mV = 1000 uV); standards.md section 5
 */
export const dbmvFromDbuv = (levelDbuv: number): number => levelDbuv - 60;

/**
 * @param levelDbmv  dBmV
 * @returns  dBuV
 * @source   definitions; standards.md section 5
 */
export const dbuvFromDbmv = (levelDbmv: number): number => levelDbmv + 60;

/**
 * @param levelDbm  dBm in 75 ohm
 * @returns  dBmV at 75 ohm
 * @source   definitions: 0 dBm in 75 ohm = 48.7506 dBmV; Hranac, "dBmV: Voltage or Power, part 2"
 */
export const dbmvFromDbm75 = (levelDbm: number): number => levelDbm + DBMV_AT_0_DBM_75;

/**
 * @param levelDbmv  dBmV at 75 ohm
 * @returns  dBm in 75 ohm
 * @source   definitions; Hranac, "dBmV: Voltage or Power, part 2"
 */
export const dbm75FromDbmv = (levelDbmv: number): number => levelDbmv - DBMV_AT_0_DBM_75;

/**
 * @param levelDbm  dBm in 50 ohm
 * @returns  dBmV across those 50 ohm
 * @source   definitions: 0 dBm in 50 ohm = 46.9897 dBmV
 */
export const dbmvFromDbm50 = (levelDbm: number): number => levelDbm + DBMV_AT_0_DBM_50;

/**
 * @param levelDbmv  dBmV
 * @returns  millivolt, root mean square
 * @source   definitions: 0 dBmV = 1 mV
 */
export const millivoltFromDbmv = (levelDbmv: number): number => 10 ** (levelDbmv / 20);

/**
 * @param millivolt  root mean square, above 0
 * @returns  dBmV
 * @source   definitions: 0 dBmV = 1 mV
 */
export const dbmvFromMillivolt = (millivolt: number): number => 20 * Math.log10(millivolt);

/**
 * @param temperatureF  degrees Fahrenheit
 * @returns  degrees Celsius
 * @source   definition
 */
export const celsiusFromFahrenheit = (temperatureF: number): number => ((temperatureF - 32) * 5) / 9;

/**
 * @param temperatureC  degrees Celsius
 * @returns  degrees Fahrenheit
 * @source   definition
 */
export const fahrenheitFromCelsius = (temperatureC: number): number => (temperatureC * 9) / 5 + 32;

/**
 * @param lengthM  metre
 * @returns  foot (international, 0.3048 m)
 * @source   definition
 */
export const feetFromMetres = (lengthM: number): number => lengthM * FEET_PER_METRE;

/**
 * @param lengthFt  foot (international, 0.3048 m)
 * @returns  metre
 * @source   definition
 */
export const metresFromFeet = (lengthFt: number): number => lengthFt / FEET_PER_METRE;

/**
 * The inverse of `dbmvFromDbm50`: the same voltage, told as the power it would have in 50 ohm. A 50 ohm instrument
 * behind a matching pad reads less than this by the loss of the pad.
 * @param levelDbmv  dBmV
 * @returns  dBm in 50 ohm
 * @source   definitions: 0 dBm in 50 ohm = 46.9897 dBmV; standards.md section 5
 */
export const dbm50FromDbmv = (levelDbmv: number): number => levelDbmv - DBMV_AT_0_DBM_50;

/**
 * @param powerWatt  watt in 75 ohm, above 0
 * @returns  dBmV at 75 ohm
 * @source   definitions: 0 dBmV = 13.33 nW in 75 ohm
 */
export const dbmvFromWatt = (powerWatt: number): number => 10 * Math.log10(powerWatt * 75 * 1e6);

/**
 * @param perDegreeF  relative change a degree Fahrenheit
 * @returns  relative change a degree Celsius
 * @source   definition: a degree Celsius is 1.8 degrees Fahrenheit
 */
export const perDegreeCFromPerDegreeF = (perDegreeF: number): number => perDegreeF * 1.8;

/**
 * @param perDegreeC  change a degree Celsius, in any unit
 * @returns  the same a degree Fahrenheit
 * @source   definition: a degree Celsius is 1.8 degrees Fahrenheit
 */
export const perDegreeFFromPerDegreeC = (perDegreeC: number): number => perDegreeC / 1.8;

/**
 * @param differenceC  between two temperatures, degrees C
 * @returns  the same difference in degrees F
 * @source   definition: a degree Celsius is 1.8 degrees Fahrenheit
 */
export const differenceFFromC = (differenceC: number): number => differenceC * 1.8;

/**
 * @param differenceF  between two temperatures, degrees F
 * @returns  the same difference in degrees C
 * @source   definition: a degree Celsius is 1.8 degrees Fahrenheit
 */
export const differenceCFromF = (differenceF: number): number => differenceF / 1.8;

/** The units a level can be shown and typed in. dBm is power in the ohms named; the others are voltage. */
export type LevelUnit = 'dBmV' | 'dBuV' | 'dBm 75 ohm' | 'dBm 50 ohm' | 'mV';
export type TemperatureUnit = 'degrees C' | 'degrees F';
export type LengthUnit = 'm' | 'ft';

/** Levels beyond this are no levels, and their millivolts might overflow. */
const FARTHEST_DB = 1000;

type NotALevel = 'not-a-level';
const level = (value: number, shown: number, unit: LevelUnit): Result<number, NotALevel> =>
  Number.isFinite(value) && Number.isFinite(shown) && Math.abs(value) <= FARTHEST_DB
    ? done(value)
    : refuse('not-a-level', `level ${shown} ${unit}`, `give a level as a number in ${unit}`);

/**
 * A level in the unit that a person chose.
 * @param levelDbmv  dBmV at 75 ohm, within 1000 dB of 0
 * @returns  the level in that unit, or a refusal of NaN, infinity and what is no level
 * @source   definitions; standards.md section 5. dBm in 50 ohm: see `dbm50FromDbmv`
 */
export function levelIn(unit: LevelUnit, levelDbmv: number): Result<number, NotALevel> {
  const fit = level(levelDbmv, levelDbmv, 'dBmV');
  if (!fit.ok) return fit;
  switch (unit) {
    case 'dBmV':
      return done(levelDbmv);
    case 'dBuV':
      return done(dbuvFromDbmv(levelDbmv));
    case 'dBm 75 ohm':
      return done(dbm75FromDbmv(levelDbmv));
    case 'dBm 50 ohm':
      return done(dbm50FromDbmv(levelDbmv));
    case 'mV':
      return done(millivoltFromDbmv(levelDbmv));
  }
}

/**
 * A level that a person typed in the unit that they chose.
 * @param value  in that unit; mV above 0
 * @returns  dBmV at 75 ohm, or a refusal of NaN, infinity, and of a voltage that is not above 0
 * @source   definitions; standards.md section 5
 */
export function levelFrom(unit: LevelUnit, value: number): Result<number, NotALevel> {
  switch (unit) {
    case 'dBmV':
      return level(value, value, unit);
    case 'dBuV':
      return level(dbmvFromDbuv(value), value, unit);
    case 'dBm 75 ohm':
      return level(dbmvFromDbm75(value), value, unit);
    case 'dBm 50 ohm':
      return level(dbmvFromDbm50(value), value, unit);
    case 'mV':
      return level(dbmvFromMillivolt(value), value, unit);
  }
}

const ABSOLUTE_ZERO_C = -273.15;
/** Farther than any cable and hotter than any housing; keeps the arithmetic finite. */
const LARGEST = 1e9;

type NotATemperature = 'not-a-temperature';
const temperatureC = (
  valueC: number,
  shown: number,
  unit: TemperatureUnit,
): Result<number, NotATemperature> =>
  // A thousandth of a degree of grace: absolute zero in degrees F does not come out whole.
  valueC >= ABSOLUTE_ZERO_C - 1e-3 && valueC <= LARGEST
    ? done(valueC)
    : refuse('not-a-temperature', `${shown} ${unit}`, `give a temperature in ${unit}, above absolute zero`);

/**
 * A temperature in the unit that a person chose.
 * @param ambientC  degrees C, not below absolute zero
 * @returns  in that unit, or a refusal of NaN, infinity and what is colder than cold can be
 * @source   definition
 */
export function temperatureIn(unit: TemperatureUnit, ambientC: number): Result<number, NotATemperature> {
  const fit = temperatureC(ambientC, ambientC, 'degrees C');
  return !fit.ok || unit === 'degrees C' ? fit : done(fahrenheitFromCelsius(ambientC));
}

type NotALength = 'not-a-length';
const lengthM = (valueM: number, shown: number, unit: LengthUnit): Result<number, NotALength> =>
  valueM >= 0 && valueM <= LARGEST
    ? done(valueM)
    : refuse('not-a-length', `${shown} ${unit}`, `give a length in ${unit}, 0 or more`);

/**
 * A length in the unit that a person chose.
 * @param metres  0 or more
 * @returns  in that unit, or a refusal of NaN, infinity and a negative length
 * @source   definition
 */
export function lengthIn(unit: LengthUnit, metres: number): Result<number, NotALength> {
  const fit = lengthM(metres, metres, 'm');
  return !fit.ok || unit === 'm' ? fit : done(feetFromMetres(metres));
}

/**
 * A length that a person typed in the unit that they chose.
 * @param value  in that unit, 0 or more
 * @returns  metre, or a refusal of NaN, infinity and a negative length
 * @source   definition
 */
export const lengthFrom = (unit: LengthUnit, value: number): Result<number, NotALength> =>
  lengthM(unit === 'm' ? value : metresFromFeet(value), value, unit);
