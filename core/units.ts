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
