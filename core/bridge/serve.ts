import type { Handlers } from './contract.ts';
import { dispatch, type OnFault } from './dispatch.ts';
import { contractVersion } from './fingerprint.ts';
import { answerableId, ClientFrame, type HostFrame } from './frames.ts';

/** A way to stop one request; `new AbortController()` is one. */
export type Stopper = Readonly<{ signal: AbortSignal; abort(): void }>;

export type ServeOptions = Readonly<{
  handlers: Handlers;
  send(frame: HostFrame): void;
  onFault: OnFault;
  /** Plain ECMAScript has no AbortController, so the host gives one. */
  newStopper: () => Stopper;
}>;

export type Served = Readonly<{
  /** A frame from the client, unchecked. Never throws. */
  receive(raw: unknown): void;
  /** The client is gone: aborts what it had running and sends nothing more. Idempotent. */
  close(): void;
}>;

const otherContract = 'this page belongs to another version of the program: reload it';

/**
 * One client of a host: keeps its running requests with their stop signals and answers each exactly once.
 * @returns  where to put the client's frames, and how to say that it went away
 * @source   DEVELOPERS.md, "The bridge"
 */
export function serveClient({ handlers, send, onFault, newStopper }: ServeOptions): Served {
  const running = new Map<number, Stopper>();
  let session: 'none' | 'agreed' | 'other' = 'none';
  let closed = false;

  function deliver(frame: HostFrame): void {
    if (closed) return;
    try {
      send(frame);
    } catch (fault) {
      onFault('send', fault);
    }
  }

  function dropAll(): void {
    const left = [...running.values()];
    running.clear();
    for (const one of left) one.abort();
  }

  function refuse(id: number, code: 'bad-input' | 'failed', help: string): void {
    deliver({ type: 'reply', id, reply: { ok: false, code, where: 'bridge', help } });
  }

  async function answer(id: number, call: string, input: unknown): Promise<void> {
    const stopper = newStopper();
    running.set(id, stopper);
    const reply = await dispatch(handlers, call, input, stopper.signal, onFault);
    // Dropped meanwhile, or the same number begun again by a new session: the answer is nobody's.
    if (running.get(id) !== stopper) return;
    running.delete(id);
    deliver({ type: 'reply', id, reply });
  }

  function begin(id: number, call: string, input: unknown): void {
    if (session === 'none') refuse(id, 'failed', 'a client says hello first');
    else if (session === 'other') refuse(id, 'failed', otherContract);
    else if (running.has(id)) onFault('frame', new Error(`request ${id} is still running`));
    else void answer(id, call, input);
  }

  function receive(raw: unknown): void {
    if (closed) return;
    const read = ClientFrame.safeParse(raw);
    if (!read.success) {
      onFault('frame', read.error);
      const id = answerableId(raw);
      if (id !== null && !running.has(id)) refuse(id, 'bad-input', 'not a frame of this contract');
      return;
    }
    const frame = read.data;
    switch (frame.type) {
      case 'hello':
        // A page that was loaded again says hello on the same wire.
        dropAll();
        session = frame.contract === contractVersion() ? 'agreed' : 'other';
        deliver({ type: 'hello', contract: contractVersion() });
        break;
      case 'request':
        begin(frame.id, frame.call, frame.input);
        break;
      case 'cancel':
        // A late cancel finds nothing, and that is all right.
        running.get(frame.id)?.abort();
        break;
    }
  }

  return {
    receive,
    close() {
      closed = true;
      dropAll();
    },
  };
}
