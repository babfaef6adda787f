/** A way that can be closed and opened again. */
export type Gate = Readonly<{
  set(closed: boolean): void;
  /** Settles when the gate is open, or the signal aborts. */
  open(signal: AbortSignal): Promise<void>;
}>;

export function createGate(): Gate {
  let closed = false;
  let passable = Promise.withResolvers<void>();
  passable.resolve();
  return {
    set(shut) {
      if (shut === closed) return;
      closed = shut;
      if (shut) passable = Promise.withResolvers<void>();
      else passable.resolve();
    },
    async open(signal) {
      if (!closed || signal.aborted) return;
      const aborted = Promise.withResolvers<void>();
      const stop = () => aborted.resolve();
      signal.addEventListener('abort', stop, { once: true });
      await Promise.race([passable.promise, aborted.promise]);
      signal.removeEventListener('abort', stop);
    },
  };
}
