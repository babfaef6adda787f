/** 0.0011 a degree F, as a part of the loss at the reference temperature. */
export const PER_DEGREE_C = 0.00198;

/** 60 degrees F: where the rule of the ambient compensation has its middle. */
export const MIDDLE_C = 15.6;

/**
 * What physics says beside the rule: how much more the span loses today than at 15.6 degrees C.
 * @param spanDb      loss of the span at the highest frequency, dB, not negative
 * @param ambientC    degrees C
 * @param perDegreeC  part of the loss by which it changes a degree C, 0.00198 unless told
 * @returns  dB at the highest frequency; negative on a colder day
 * @throws   RangeError when the answer is no number
 * @source   contract, section 3, "gain-control, exactly"; the coefficient from "Coaxial Cable Attenuation Changes versus
 *           Temperature" (tech tip, publisher not shown): 0.0011 a degree F
 */
export function spanOffsetDb(spanDb: number, ambientC: number, perDegreeC: number = PER_DEGREE_C): number {
  const offsetDb = spanDb * perDegreeC * (ambientC - MIDDLE_C);
  if (!Number.isFinite(offsetDb)) throw new RangeError(`${spanDb} dB at ${ambientC} degrees C`);
  return offsetDb;
}
