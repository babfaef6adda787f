import type { Span } from './plan.ts';

/** The temperature at which a span has its rated loss, degrees C. */
export const RATED_C = 20;

/**
 * Loss of a span.
 * @param frequencyMhz  MHz, 0 or more
 * @param ambientC      degrees C of the cable
 * @returns  dB, positive: lossDb sqrt(f/topMhz) (1 + perDegreeC (T - 20))
 * @source   contract, section 3, "season, exactly"
 */
export const spanLossDb = (span: Span, frequencyMhz: number, ambientC: number): number =>
  span.lossDb * Math.sqrt(frequencyMhz / span.topMhz) * (1 + span.perDegreeC * (ambientC - RATED_C));

/**
 * How much more a span loses than on the day when the control was set.
 * @param frequencyMhz  MHz, 0 or more
 * @param ambientC      degrees C of the cable
 * @param setAtC        degrees C when it was set
 * @returns  dB; negative where it is colder
 * @source   contract, section 3, "season, exactly": demand(f,T) = loss(f,T) - loss(f,setAtC)
 */
export const spanDemandDb = (span: Span, frequencyMhz: number, ambientC: number, setAtC: number): number =>
  spanLossDb(span, frequencyMhz, ambientC) - spanLossDb(span, frequencyMhz, setAtC);
