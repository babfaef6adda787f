/** The one word of fourier-transform that is used here; the package brings no declarations. */
declare module 'fourier-transform' {
  /** In place, with a negative exponent and not scaled; as many parts as a power of two. */
  export function cfft(re: Float64Array, im: Float64Array): void;
}
