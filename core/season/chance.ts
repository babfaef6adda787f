/** Draws that a seed decides: the same seed gives the same ones. */
export type Chance = Readonly<{
  /** Even between 0 and 1, never 1. */
  even(): number;
  /** Mean 0, standard deviation 1. */
  normal(): number;
}>;

/**
 * A source of chance from a seed.
 * @param seed  whole number from 0 to 2^32 - 1
 * @returns  draws without a unit
 * @throws   RangeError on a seed that is none
 * @source   sfc32 of PractRand (C. Doty-Humphrey, public domain, from memory); G. Marsaglia and T. A. Bray, "A Convenient
 *           Method for Generating Normal Variables", SIAM Review 6 (1964), 260-264
 */
export function chanceFrom(seed: number): Chance {
  if (!Number.isInteger(seed) || seed < 0 || seed > 4294967295) throw new RangeError(`${seed} is no seed`);
  let a = 0x9e3779b9;
  let b = 0x243f6a88;
  let c = seed | 0;
  let counter = 1;
  const word = (): number => {
    const sum = (a + b + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = ((c << 21) | (c >>> 11)) + sum;
    return sum >>> 0;
  };
  // Neighbouring seeds give neighbouring first words; after twelve rounds they have nothing in common.
  for (let i = 0; i < 12; i++) word();
  const even = (): number => word() / 4294967296;
  let spare: number | null = null;
  const normal = (): number => {
    if (spare !== null) {
      const kept = spare;
      spare = null;
      return kept;
    }
    for (;;) {
      const u = 2 * even() - 1;
      const v = 2 * even() - 1;
      const square = u * u + v * v;
      if (square >= 1 || square === 0) continue;
      const scale = Math.sqrt((-2 * Math.log(square)) / square);
      spare = v * scale;
      return u * scale;
    }
  };
  return { even, normal };
}
