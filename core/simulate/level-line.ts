import { positionOf, type Shape } from '../line/position.ts';

/** A value over frequency, straight in f (`linear`) or in sqrt f (`cable`). */
export type Straight = Readonly<{
  lowMhz: number;
  low: number;
  highMhz: number;
  high: number;
  shape: Shape;
}>;

/**
 * A straight line's value, also beyond its ends.
 * @param line          two frequencies in MHz, lowMhz below highMhz, and the value at each
 * @param frequencyMhz  MHz, above 0
 * @returns  the value in the unit of `low` and `high`
 * @source   contract, section 3, "fit, exactly": x(f) of a linear and of a cable shape
 */
export function valueOn(line: Straight, frequencyMhz: number): number {
  const position = positionOf(frequencyMhz, line.shape, line.lowMhz, line.highMhz);
  return line.low + position * (line.high - line.low);
}
