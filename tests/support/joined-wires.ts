import { createBroadcast } from '../../core/bridge/broadcast.ts';
import type { Wire } from '../../core/bridge/client.ts';
import type { Emit, Handlers } from '../../core/bridge/contract.ts';
import { serveClient } from '../../core/bridge/serve.ts';

export type MemoryHost = Readonly<{
  emit: Emit;
  /** One more client's end. */
  join(): Readonly<{ wire: Wire; cut(why?: string): void }>;
  faults: readonly Readonly<{ where: string; fault: unknown }>[];
}>;

/** A host and its clients in one process: frames are cloned and arrive later, as over a real wire. */
export function memoryHost(handlers: Handlers | ((emit: Emit) => Handlers)): MemoryHost {
  const faults: { where: string; fault: unknown }[] = [];
  const onFault = (where: string, fault: unknown) => faults.push({ where, fault });
  const broadcast = createBroadcast(onFault);
  const served = typeof handlers === 'function' ? handlers(broadcast.emit) : handlers;
  return {
    emit: broadcast.emit,
    faults,
    join() {
      const listeners = new Set<(frame: unknown) => void>();
      const closedListeners = new Set<(why: string) => void>();
      let whyClosed: string | null = null;
      const toClient = (frame: unknown) => {
        const copy: unknown = structuredClone(frame);
        queueMicrotask(() => {
          for (const listener of [...listeners]) listener(copy);
        });
      };
      const client = serveClient({
        handlers: served,
        send: toClient,
        onFault,
        newStopper: () => new AbortController(),
      });
      const leave = broadcast.join(toClient);
      const wire: Wire = {
        send(frame) {
          const copy: unknown = structuredClone(frame);
          queueMicrotask(() => client.receive(copy));
        },
        receive(listener) {
          listeners.add(listener);
          return () => listeners.delete(listener);
        },
        onClosed(listener) {
          if (whyClosed !== null) listener(whyClosed);
          closedListeners.add(listener);
          return () => closedListeners.delete(listener);
        },
      };
      return {
        wire,
        cut(why = 'the wire was cut') {
          leave();
          client.close();
          whyClosed = why;
          for (const listener of [...closedListeners]) listener(why);
        },
      };
    },
  };
}
