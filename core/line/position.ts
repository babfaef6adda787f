/** Straight in frequency, or straight in its square root as the loss of cable is. */
export type Shape = 'linear' | 'cable';

const along = (shape: Shape, frequencyMhz: number): number =>
  shape === 'cable' ? Math.sqrt(frequencyMhz) : frequencyMhz;

/**
 * Where a frequency lies between the low and the high one: x(f) = (s(f) - s(low)) / (s(high) - s(low)), s(f) = f for
 * `linear`, sqrt(f) for `cable`.
 * @param frequencyMhz  MHz, 0 or more
 * @param lowMhz        MHz, 0 or more: position 0
 * @param highMhz       MHz, above lowMhz: position 1
 * @returns  the position, no unit; below 0 and above 1 outside the two
 * @throws   RangeError when low is not below high, or a frequency is negative or not finite
 * @source   contract, section 3, "fit, exactly"
 */
export function positionOf(frequencyMhz: number, shape: Shape, lowMhz: number, highMhz: number): number {
  const low = along(shape, lowMhz);
  const position = (along(shape, frequencyMhz) - low) / (along(shape, highMhz) - low);
  if (!(lowMhz < highMhz) || !Number.isFinite(position))
    throw new RangeError(`no position of ${frequencyMhz} MHz between ${lowMhz} and ${highMhz} MHz`);
  return position;
}

/**
 * The same for many rows.
 * @param rows     MHz each, 0 or more
 * @param lowMhz   MHz, 0 or more: position 0
 * @param highMhz  MHz, above lowMhz: position 1
 * @returns  as many positions, no unit
 * @throws   RangeError as positionOf
 * @source   contract, section 3, "fit, exactly"
 */
export function positionsOf(
  rows: readonly Readonly<{ frequencyMhz: number }>[],
  shape: Shape,
  lowMhz: number,
  highMhz: number,
): Float64Array {
  const low = along(shape, lowMhz);
  const span = along(shape, highMhz) - low;
  const positions = new Float64Array(rows.length);
  for (let i = 0; i < rows.length; i++) {
    const { frequencyMhz } = rows[i] as Readonly<{ frequencyMhz: number }>;
    const position = (along(shape, frequencyMhz) - low) / span;
    if (!(lowMhz < highMhz) || !Number.isFinite(position))
      throw new RangeError(`no position of ${frequencyMhz} MHz between ${lowMhz} and ${highMhz} MHz`);
    positions[i] = position;
  }
  return positions;
}
