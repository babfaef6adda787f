import { type Emit, events } from './contract.ts';
import type { OnFault } from './dispatch.ts';
import type { HostFrame } from './frames.ts';

export type Broadcast = Readonly<{
  /** Sends an event to everybody who listens now, in the order of the calls. Never throws into a running sweep. */
  emit: Emit;
  /** One more client; gives back the way to leave. */
  join(send: (frame: HostFrame) => void): () => void;
  /** How many listen now. */
  count(): number;
}>;

/**
 * The events of a host, to all of its clients.
 * @param onFault  told of an event that breaks the contract (it isn't sent) and of a client that can't be reached
 * @returns        the sender and the list of those who listen
 * @source         DEVELOPERS.md, "The bridge"
 */
export function createBroadcast(onFault: OnFault): Broadcast {
  const clients = new Set<(frame: HostFrame) => void>();
  return {
    emit(name, data) {
      const read = events[name].safeParse(data);
      if (!read.success) return onFault(name, read.error);
      for (const send of [...clients]) {
        try {
          send({ type: 'event', name, data: read.data });
        } catch (fault) {
          onFault(name, fault);
        }
      }
    },
    count: () => clients.size,
    join(send) {
      clients.add(send);
      return () => {
        clients.delete(send);
      };
    },
  };
}
