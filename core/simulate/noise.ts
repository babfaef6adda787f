/** One well-mixed 32-bit word from another: the finalizer of splitmix32. */
function mixed(word: number): number {
  let h = (word + 0x9e3779b9) | 0;
  h = Math.imul(h ^ (h >>> 16), 0x21f0aaad);
  h = Math.imul(h ^ (h >>> 15), 0x735a2d97);
  return (h ^ (h >>> 15)) >>> 0;
}

/** Between 0 and 1, neither of them. */
const unit = (word: number): number => (word + 0.5) / 4294967296;

/**
 * A standard normal draw that depends on its three numbers alone: the same three always give the same one.
 * @param seed          whole number from 0 to 2^32 - 1
 * @param frequencyMhz  MHz; told apart to 1 kHz
 * @param draw          which reading at that frequency, a whole number
 * @returns  mean 0, standard deviation 1, no unit; never beyond 7
 * @source   splitmix32's finalizer (public domain, from memory) and Box and Muller, "A Note on the Generation of
 *           Random Normal Deviates", Annals of Mathematical Statistics 29 (1958), 610-611
 */
export function normalNoise(seed: number, frequencyMhz: number, draw: number): number {
  const place = mixed(mixed(mixed(seed) ^ Math.round(frequencyMhz * 1000)) ^ draw);
  const radius = Math.sqrt(-2 * Math.log(unit(mixed(place))));
  return radius * Math.cos(2 * Math.PI * unit(mixed(place ^ 0x5bd1e995)));
}
