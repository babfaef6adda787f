/** A value over frequency, straight in f (`linear`) or in sqrt f (`cable`). */
export type Straight = Readonly<{
  lowMhz: number;
  low: number;
  highMhz: number;
  high: number;
  shape: 'linear' | 'cable';
}>;

/**
 * A straight line's value, also beyond its ends.
 * @param line          two frequencies in MHz, lowMhz below highMhz, and the value at each
 * @param frequencyMhz  MHz, above 0
 * @returns  the value in the unit of `low` and `high`
 * @source   contract, section 3, "fit, exactly": x(f) of a linear and of a cable shape
 */
export function valueOn(line: Straight, frequencyMhz: number): number {
  const place = (mhz: number) => (line.shape === 'cable' ? Math.sqrt(mhz) : mhz);
  const x = (place(frequencyMhz) - place(line.lowMhz)) / (place(line.highMhz) - place(line.lowMhz));
  return line.low + x * (line.high - line.low);
}
