import { type Allowed, AMBIENT, LOSS, type Unfit, unfit } from '../checked.ts';
import { done, type Result } from '../result.ts';
import { celsiusFromFahrenheit, perDegreeCFromPerDegreeF } from '../units.ts';

/** Both are in use; 0.0011 is also what copper's resistance gives (0.109 % a degree F, from memory). */
export const PER_DEGREE_F = 0.0011;
export const PER_DEGREE_F_OTHER = 0.001;

/** The temperature of the tables: 68 degrees F. */
export const REFERENCE_C = celsiusFromFahrenheit(68);

const COEFFICIENT: Allowed = { unit: 'per degree F', from: 0, to: 0.004 };

/**
 * How much more (or, in the cold, less) a cable loses at one temperature than at another. The change at each frequency
 * is in proportion to the loss there, so the tilt changes with the level.
 * @param lossDb      dB at the reference temperature of 20 degrees C, 0 or more
 * @param fromC       degrees C
 * @param toC         degrees C
 * @param perDegreeF  part of the loss a degree F, 0 to 0.004; PER_DEGREE_F when left out
 * @returns  dB, negative when toC is the colder one; or a refusal
 * @source   0.0011: "Coaxial Cable Attenuation Changes versus Temperature" (tech tip, publisher not shown); 0.001:
 *           "Automatic Gain Control Part 01", Transmit Magazine, 11 April 2016 (90 dB, 100 F: 9 dB)
 */
export function temperatureChangeDb(
  lossDb: number,
  fromC: number,
  toC: number,
  perDegreeF: number = PER_DEGREE_F,
): Result<number, Unfit> {
  const wrong = unfit([
    ['loss', lossDb, LOSS],
    ['temperature', fromC, AMBIENT],
    ['temperature', toC, AMBIENT],
    ['temperature coefficient', perDegreeF, COEFFICIENT],
  ]);
  return wrong ?? done(lossDb * perDegreeCFromPerDegreeF(perDegreeF) * (toC - fromC));
}

/**
 * What a cable loses at a temperature.
 * @param lossDb      dB at the reference temperature of 20 degrees C (68 degrees F), 0 or more
 * @param ambientC    degrees C of the cable; in the sun it is warmer than the air (from memory)
 * @param perDegreeF  part of the loss a degree F, 0 to 0.004; PER_DEGREE_F when left out
 * @returns  dB, or a refusal
 * @source   alpha_t = alpha_ref [1 + 0.0011 (tF - 68)]: "Coaxial Cable Attenuation Changes versus Temperature"
 */
export function atTemperature(
  lossDb: number,
  ambientC: number,
  perDegreeF: number = PER_DEGREE_F,
): Result<number, Unfit> {
  const changeDb = temperatureChangeDb(lossDb, REFERENCE_C, ambientC, perDegreeF);
  return changeDb.ok ? done(lossDb + changeDb.value) : changeDb;
}
