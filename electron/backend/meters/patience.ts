/** Why a signal aborted: the time for an answer ran out. Anything else means that somebody wanted it to stop. */
export class OutOfPatience extends Error {
  readonly afterMs: number;
  constructor(afterMs: number) {
    super(`no answer within ${afterMs} ms`);
    this.name = 'OutOfPatience';
    this.afterMs = afterMs;
  }
}

/**
 * Runs a task with a signal that also aborts after a while, with `OutOfPatience` as its reason. The timer keeps the
 * process alive on purpose (`AbortSignal.timeout` does not): a silent meter must end in a message, not in an exit.
 */
export async function withPatience<T>(
  patienceMs: number,
  signal: AbortSignal,
  task: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  const patience = new AbortController();
  const timer = setTimeout(() => patience.abort(new OutOfPatience(patienceMs)), patienceMs);
  try {
    return await task(AbortSignal.any([signal, patience.signal]));
  } finally {
    clearTimeout(timer);
  }
}

/** Settles after a while; rejects with the signal's reason as soon as that aborts. */
export async function pause(pauseMs: number, signal: AbortSignal): Promise<void> {
  signal.throwIfAborted();
  await new Promise<void>((resolve, reject) => {
    const timer = setTimeout(done, pauseMs);
    const stop = () => {
      clearTimeout(timer);
      reject(signal.reason);
    };
    function done() {
      signal.removeEventListener('abort', stop);
      resolve();
    }
    signal.addEventListener('abort', stop, { once: true });
  });
}
