import { createBlockCollector } from './block-collector.ts';
import type { ByteWire, WireStart } from './byte-wire.ts';
import type { BlockAnswer, LineFormat, LineLink, Tap } from './line-link.ts';
import { createLineSplitter } from './lines.ts';
import { MeterFault } from './meter-shop.ts';
import { OutOfPatience } from './patience.ts';

const CLOSE_WITHIN_MS = 1000;

/** The one question that is on the wire. `over` settles when its answer has come or is no longer to be expected. */
type Flight = {
  /** Where a block is to come; null once what comes is known to be text. */
  block: ReturnType<typeof createBlockCollector> | null;
  answered: (answer: BlockAnswer) => void;
  failed: (fault: MeterFault) => void;
  readonly over: Promise<void>;
  readonly land: () => void;
};

/** A line link over any wire of bytes. `where` names the wire in faults. */
export function createLineLink(where: string, format: LineFormat, start: WireStart): LineLink {
  const splitter = createLineSplitter(format.discardFirstLine, format.longestLine);
  const lost = Promise.withResolvers<MeterFault>();
  const ended = Promise.withResolvers<never>();
  // Nobody may be waiting when the link ends; the rejection is for those who are.
  ended.promise.catch(() => undefined);
  let end: MeterFault | null = null;
  let flight: Flight | null = null;
  let closing: Promise<void> | null = null;
  let tap: Tap | null = null;

  const finish = (fault: MeterFault) => {
    if (end !== null) return;
    end = fault;
    flight?.failed(fault);
    ended.reject(fault);
  };

  const takeText = (bytes: Uint8Array) => {
    const { lines, endless } = splitter.push(bytes);
    // A line that nobody asked for is dropped: it answers nothing.
    for (const line of lines) flight?.answered({ kind: 'line', line });
    if (endless) {
      const help = `more than ${format.longestLine} characters without a line end; check the speed of the port`;
      flight?.failed(new MeterFault('not-understood', where, help));
    }
  };
  const takeBlock = (
    waiting: Flight,
    collected: ReturnType<typeof createBlockCollector>,
    chunk: Uint8Array,
  ) => {
    const found = collected.push(chunk);
    switch (found.kind) {
      case 'more':
        return;
      case 'block':
        waiting.answered({ kind: 'block', data: found.data });
        return takeText(found.rest);
      case 'text':
        waiting.block = null;
        return takeText(found.bytes);
      case 'damaged':
        waiting.answered({ kind: 'line', line: 'a block that does not end where its header says' });
        takeText(found.rest);
        return splitter.dropBegun();
    }
  };

  const wire: ByteWire = start({
    bytes(chunk) {
      // Data behind the end of a session is nobody's answer.
      if (end !== null) return;
      tap?.heard(chunk);
      const waiting = flight;
      if (waiting !== null && waiting.block !== null) takeBlock(waiting, waiting.block, chunk);
      else takeText(chunk);
    },
    gone(fault) {
      if (end === null) lost.resolve(fault);
      finish(fault);
      void link.close();
    },
  });

  const send = (line: string, taken: () => void) => {
    // Half a line that came before we said this answers something else, and so does its rest: an earlier session's,
    // or that of a question which waited long enough.
    splitter.dropBegun();
    const bytes = Buffer.from(line + format.terminator, 'latin1');
    tap?.said(bytes);
    wire.write(bytes, taken);
  };

  /** Waits for its turn, sends, and gives what comes back. */
  const converse = async (
    line: string,
    block: Flight['block'],
    signal: AbortSignal,
  ): Promise<BlockAnswer> => {
    // The check and the taking of the turn stand in one step, so that two can't take the same turn.
    while (flight !== null) await unlessAborted(flight.over, signal);
    signal.throwIfAborted();
    if (end !== null) throw end;
    return await new Promise<BlockAnswer>((resolve, reject) => {
      const landing = Promise.withResolvers<void>();
      const mine: Flight = {
        block,
        over: landing.promise,
        land: () => {
          signal.removeEventListener('abort', abandon);
          if (flight === mine) flight = null;
          landing.resolve();
        },
        answered: (answer) => {
          mine.land();
          resolve(answer);
        },
        failed: (fault) => {
          mine.land();
          reject(fault);
        },
      };
      const abandon = () => {
        reject(signal.reason);
        // Waited long enough already, or stopped while the answer is on its way: then it still owns the wire.
        if (signal.reason instanceof OutOfPatience) {
          mine.land();
          return tap?.gaveUp();
        }
        const timer = setTimeout(mine.land, format.lateAnswerMs);
        void mine.over.then(() => clearTimeout(timer));
      };
      signal.addEventListener('abort', abandon, { once: true });
      flight = mine;
      send(line, () => undefined);
    });
  };

  const link: LineLink = {
    lost: lost.promise,
    async ask(line, signal) {
      const answer = await converse(line, null, signal);
      // Without a collector nothing but lines comes.
      if (answer.kind === 'block') throw new Error('a block came where a line was asked for');
      return answer.line;
    },
    askBlock: (line, mostBytes, signal) => converse(line, createBlockCollector(mostBytes), signal),
    async tell(line, signal) {
      while (flight !== null) await unlessAborted(flight.over, signal);
      signal.throwIfAborted();
      if (end !== null) throw end;
      const taken = new Promise<void>((resolve) => send(line, resolve));
      await unlessAborted(Promise.race([taken, ended.promise]), signal);
    },
    listen(other) {
      tap = other;
    },
    close() {
      finish(new MeterFault('lost', where, 'the link was closed; connect the meter again'));
      closing ??= within(CLOSE_WITHIN_MS, wire.close());
      return closing;
    },
  };
  return link;
}

/** A promise's outcome, or the signal's reason as soon as that aborts. */
async function unlessAborted<T>(promise: Promise<T>, signal: AbortSignal): Promise<T> {
  signal.throwIfAborted();
  const aborted = Promise.withResolvers<never>();
  const stop = () => aborted.reject(signal.reason);
  signal.addEventListener('abort', stop, { once: true });
  try {
    return await Promise.race([promise, aborted.promise]);
  } finally {
    signal.removeEventListener('abort', stop);
  }
}

/** Done when the task is, or after a while; never fails. */
async function within(limitMs: number, task: Promise<unknown>): Promise<void> {
  const limit = Promise.withResolvers<void>();
  const timer = setTimeout(limit.resolve, limitMs);
  await Promise.race([task.catch(() => undefined), limit.promise]);
  clearTimeout(timer);
}
