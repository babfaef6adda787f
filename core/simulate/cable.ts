/**
 * Loss of a cable at its reference temperature.
 * @param cable         its loss in dB at its top frequency in MHz
 * @param frequencyMhz  MHz, above 0
 * @returns  dB, positive
 * @source   shared practice: loss goes as sqrt f (cabl.com, "CATV Formulas": L2 = L1 sqrt(f2/f1)); real foam cable loses
 *           0.25 to 0.5 dB less at 55 MHz in a span of 20 dB
 */
export const cableLossDb = (
  cable: Readonly<{ lossDb: number; topMhz: number }>,
  frequencyMhz: number,
): number => cable.lossDb * Math.sqrt(frequencyMhz / cable.topMhz);

/**
 * How much more a cable loses at its top frequency than it would at another temperature.
 * @param cable     its loss in dB at 20 degrees C and the part of that by which it changes a degree
 * @param ambientC  degrees C now
 * @param sinceC    degrees C then
 * @returns  dB at the cable's top frequency, negative where it is colder now
 * @source   contract, section 2, `span.perDegreeC`; 0.0011 per degree F, "Coaxial Cable Attenuation Changes versus
 *           Temperature" (tech tip, publisher not shown)
 */
export const cableChangeDb = (
  cable: Readonly<{ lossDb: number; perDegreeC: number }>,
  ambientC: number,
  sinceC: number,
): number => cable.lossDb * cable.perDegreeC * (ambientC - sinceC);
