import type { OnFault } from '../../core/bridge/dispatch.ts';
import type { HostFrame } from '../../core/bridge/frames.ts';
import { FromBackend, type ToBackend } from './backend-message.ts';

/** The backend's process as the main process sees it: Electron's utility process, or a stand-in in a test. */
export type BackendProcess = Readonly<{
  send(message: ToBackend): void;
  onMessage(listener: (message: unknown) => void): void;
  onExit(listener: (code: number) => void): void;
  kill(): void;
}>;

export type KeeperOptions = Readonly<{
  start(): BackendProcess;
  /** A frame for the page. */
  toPage(frame: unknown): void;
  onFault: OnFault;
  nowMs(): number;
  /** After this long a backend that was told to close is ended. */
  closeWithinMs: number;
}>;

export type Keeper = Readonly<{
  fromPage(frame: unknown): void;
  pageGone(): void;
  /** The computer is about to sleep, or woke. A backend that is not there needs not know: it holds no port. */
  computer(what: 'suspend' | 'resume'): void;
  /** Settles when the backend has closed its archive, or was ended because it did not in time. */
  close(): Promise<void>;
}>;

const startsInAMinute = 4;
const restarting =
  'the services stopped unexpectedly and are being started again; what was read is in the archive';
const givenUp =
  'the services keep stopping; close the program and start it again (its log is tiltwright.log beside the archive)';

type Running = { process: BackendProcess; ready: boolean; held: unknown[] };

/** Starts the backend's process, starts it again when it dies, and tells the page, whose new hello then finds it. */
export function keepBackend(options: KeeperOptions): Keeper {
  const { start, toPage, onFault, nowMs, closeWithinMs } = options;
  let running: Running | null = null;
  let startedAtMs: number[] = [];
  let lastWords: string | null = null;
  let closing: { done(): void } | null = null;

  const gone = (why: string) => toPage({ type: 'gone', why } satisfies HostFrame);

  function heard(me: Running, raw: unknown): void {
    const read = FromBackend.safeParse(raw);
    if (!read.success) {
      onFault('backend', read.error);
      return;
    }
    const message = read.data;
    switch (message.kind) {
      case 'ready':
        me.ready = true;
        for (const frame of me.held.splice(0)) me.process.send({ kind: 'frame', frame });
        break;
      case 'frame':
        toPage(message.frame);
        break;
      case 'cannot-open':
        lastWords = message.why;
        break;
      case 'closed':
        closing?.done();
        break;
    }
  }

  function ended(me: Running, code: number): void {
    if (running !== me) return;
    running = null;
    if (closing !== null) {
      closing.done();
      return;
    }
    if (lastWords !== null) {
      // It said why it can't work; starting it again would only say it again. The page's next hello may try.
      gone(lastWords);
      lastWords = null;
      return;
    }
    onFault('backend', new Error(`the backend ended with code ${code}`));
    gone(ensure() === null ? givenUp : restarting);
  }

  function ensure(): Running | null {
    if (running !== null) return running;
    const now = nowMs();
    startedAtMs = startedAtMs.filter((at) => now - at < 60_000);
    if (closing !== null || startedAtMs.length >= startsInAMinute) return null;
    startedAtMs.push(now);
    const me: Running = { process: start(), ready: false, held: [] };
    running = me;
    me.process.onMessage((message) => heard(me, message));
    me.process.onExit((code) => ended(me, code));
    return me;
  }

  ensure();
  return {
    fromPage(frame) {
      const me = ensure();
      if (me === null) gone(givenUp);
      else if (me.ready) me.process.send({ kind: 'frame', frame });
      else me.held.push(frame);
    },
    pageGone() {
      if (running?.ready) running.process.send({ kind: 'page-gone' });
      running?.held.splice(0);
    },
    computer(what) {
      if (running?.ready) running.process.send({ kind: what });
    },
    close() {
      return new Promise((resolve) => {
        const me = running;
        if (me === null) {
          resolve();
          return;
        }
        const patience = setTimeout(() => {
          onFault('backend', new Error('the backend did not close in time'));
          me.process.kill();
          resolve();
        }, closeWithinMs);
        closing = {
          done() {
            clearTimeout(patience);
            resolve();
          },
        };
        me.process.send({ kind: 'close' });
      });
    },
  };
}
