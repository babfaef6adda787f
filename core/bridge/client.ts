import { z } from 'zod';
import { ClientFault } from './client-fault.ts';
import {
  type CallName,
  calls,
  type EventData,
  type EventName,
  events,
  type Input,
  type Output,
} from './contract.ts';
import type { OnFault } from './dispatch.ts';
import { contractVersion } from './fingerprint.ts';
import { HostFrame, type Reply } from './frames.ts';

/** A way to a host and back: the preload, a WebSocket, or two joined ends in a test. Frames are plain data. */
export type Wire = Readonly<{
  send(frame: unknown): void;
  receive(listener: (frame: unknown) => void): () => void;
  /** Left out when the wire can't close by itself. `why` is a line for a person. */
  onClosed?(listener: (why: string) => void): () => void;
}>;

/** What a call needs of an AbortSignal, Node's or the browser's. */
export type CancelSignal = Readonly<{
  aborted: boolean;
  addEventListener(type: 'abort', listener: () => void): void;
  removeEventListener(type: 'abort', listener: () => void): void;
}>;

/** `opening` until the host has answered with the same contract; `closed` is the end: make a new client then. */
export type ConnectionState = 'opening' | 'open' | 'closed';
export type StateListener = (state: ConnectionState, why: string) => void;

export type Client = Readonly<{
  /** Rejects with `ClientFault` and nothing else. May be used at once, before the connection is open. */
  call<N extends CallName>(name: N, input: Input<N>, signal?: CancelSignal): Promise<Output<N>>;
  /** Events in the order in which the host sent them; gives back the way to stop listening. */
  on<N extends EventName>(name: N, listener: (data: EventData<N>) => void): () => void;
  connection: Readonly<{
    state(): ConnectionState;
    /** Called at once with the state as it is, then at every change. */
    onState(listener: StateListener): () => void;
  }>;
  /** Lets the wire go; every pending call rejects as disconnected. */
  close(): void;
}>;

type Waiting = Readonly<{ name: CallName; settle(reply: Reply): void; fail(fault: ClientFault): void }>;

const isEvent = (name: string): name is EventName => Object.hasOwn(events, name);

const faultOf = (reply: Reply & { ok: false }): ClientFault =>
  reply.code === 'refused'
    ? new ClientFault('refused', reply.refusal.where, reply.refusal.help, reply.refusal.code)
    : new ClientFault(reply.code, reply.where, reply.help);

/**
 * A typed client over any wire.
 * @param onFault  told of frames that break the contract and of listeners that throw; both are dropped
 * @returns  the client; its calls reject with `ClientFault`, also when the wire closes or the contracts differ
 * @source   DEVELOPERS.md, "The bridge"
 */
export function createClient(wire: Wire, onFault: OnFault = () => {}): Client {
  const waiting = new Map<number, Waiting>();
  const listeners = new Map<EventName, Set<(data: never) => void>>();
  const stateListeners = new Set<StateListener>();
  let state: ConnectionState = 'opening';
  const stateNow = (): ConnectionState => state;
  let why = '';
  let lastId = 0;
  let stopReceiving = () => {};
  let stopWatching = () => {};

  function become(next: ConnectionState, reason: string): void {
    state = next;
    why = reason;
    for (const listener of [...stateListeners]) listener(state, why);
  }

  function end(reason: string): void {
    if (state === 'closed') return;
    stopReceiving();
    stopWatching();
    const left = [...waiting.values()];
    waiting.clear();
    become('closed', reason);
    for (const one of left) one.fail(new ClientFault('disconnected', one.name, reason));
  }

  function tell(name: EventName, data: unknown): void {
    for (const listener of [...(listeners.get(name) ?? [])]) {
      try {
        listener(data as never);
      } catch (fault) {
        onFault(name, fault);
      }
    }
  }

  function heardEvent(name: string, data: unknown): void {
    if (!isEvent(name)) {
      onFault(name, new Error('an event that the contract does not have'));
      return;
    }
    const read = events[name].safeParse(data);
    if (read.success) tell(name, read.data);
    else onFault(name, read.error);
  }

  function heardHello(contract: string): void {
    const mine = contractVersion();
    if (contract !== mine) {
      end(
        `this page speaks contract ${mine}, the program speaks ${contract}: reload the page, or start the program again`,
      );
    } else if (state === 'opening') {
      become('open', '');
    }
  }

  function heardReply(id: number, reply: Reply): void {
    // Nothing waits under that number when the call was cancelled meanwhile.
    const one = waiting.get(id);
    waiting.delete(id);
    one?.settle(reply);
  }

  function heard(raw: unknown): void {
    const read = HostFrame.safeParse(raw);
    if (!read.success) {
      onFault('frame', read.error);
      return;
    }
    const frame = read.data;
    if (frame.type === 'hello') heardHello(frame.contract);
    else if (frame.type === 'gone') end(frame.why);
    // Before the hello is answered, anything else on this wire belongs to whoever used it before.
    else if (state === 'open' && frame.type === 'event') heardEvent(frame.name, frame.data);
    else if (state === 'open' && frame.type === 'reply') heardReply(frame.id, frame.reply);
  }

  function call<N extends CallName>(name: N, input: Input<N>, signal?: CancelSignal): Promise<Output<N>> {
    return new Promise((resolve, reject) => {
      if (state === 'closed') {
        reject(new ClientFault('disconnected', name, why));
        return;
      }
      const cancelled = () => new ClientFault('cancelled', name, 'cancelled before it was done');
      if (signal?.aborted) return reject(cancelled());
      lastId += 1;
      const id = lastId;
      const onAbort = () => {
        if (!waiting.delete(id)) return;
        reject(cancelled());
        try {
          wire.send({ type: 'cancel', id });
        } catch (fault) {
          onFault(name, fault);
        }
      };
      const done = () => signal?.removeEventListener('abort', onAbort);
      waiting.set(id, {
        name,
        settle(reply) {
          done();
          if (!reply.ok) return reject(faultOf(reply));
          const output = calls[name].out.safeParse(reply.value);
          if (output.success) return resolve(output.data as Output<N>);
          onFault(name, output.error);
          reject(
            new ClientFault(
              'failed',
              name,
              `the answer breaks the contract: ${z.prettifyError(output.error)}`,
            ),
          );
        },
        fail(fault) {
          done();
          reject(fault);
        },
      });
      signal?.addEventListener('abort', onAbort);
      try {
        wire.send({ type: 'request', id, call: name, input });
      } catch (fault) {
        waiting
          .get(id)
          ?.fail(new ClientFault('failed', name, fault instanceof Error ? fault.message : String(fault)));
        waiting.delete(id);
      }
    });
  }

  stopReceiving = wire.receive(heard);
  stopWatching = wire.onClosed?.(end) ?? stopWatching;
  // A wire may say while it is taken up that it is already closed.
  if (stateNow() !== 'closed') wire.send({ type: 'hello', contract: contractVersion() });

  return {
    call,
    on(name, listener) {
      const mine = listeners.get(name) ?? new Set();
      listeners.set(name, mine);
      mine.add(listener);
      return () => mine.delete(listener);
    },
    connection: {
      state: stateNow,
      onState(listener) {
        stateListeners.add(listener);
        listener(state, why);
        return () => stateListeners.delete(listener);
      },
    },
    close: () => end('closed by the page'),
  };
}
