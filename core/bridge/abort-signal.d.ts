/** Plain ECMAScript has no AbortSignal; this readonly field merges with Node's and the browser's declaration. */
interface AbortSignal {
  readonly aborted: boolean;
}
