/** Plain ECMAScript has no AbortSignal; these members merge with Node's and the browser's declaration. */
interface AbortSignal {
  readonly aborted: boolean;
  addEventListener(type: 'abort', listener: () => void): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}
