import { createLineSplitter } from '../lines.ts';
import type { Instrument } from './instrument.ts';

/** How long the instrument takes, in milliseconds: to work through a message; a reading, a point of a trace on top. */
export type Pace = Readonly<{ messageMs: number; readingMs: number; pointMs?: number }>;

/** About the pace of a quick hand-held meter: a plan of 136 channels takes some three seconds. */
export const usualPace: Pace = { messageMs: 0, readingMs: 20 };

/** The instrument's connector: bytes in, bytes out through `send`, one message after the other. */
export interface InstrumentFront {
  receive(chunk: Uint8Array): void;
  /** Pulls the plug: nothing is sent any more. */
  stop(): void;
}

export function createFront(
  instrument: Instrument,
  pace: Pace,
  send: (bytes: Uint8Array) => void,
): InstrumentFront {
  const splitter = createLineSplitter(false);
  const waiting: string[] = [];
  let working: NodeJS.Timeout | null = null;
  let stopped = false;

  const work = () => {
    const line = waiting.shift();
    if (line === undefined || stopped) return;
    const { answer, readings, points } = instrument.take(line);
    working = setTimeout(
      () => {
        working = null;
        if (answer !== null) send(Buffer.from(`${answer}\n`, 'latin1'));
        work();
      },
      pace.messageMs + readings * pace.readingMs + points * (pace.pointMs ?? 0),
    );
  };

  return {
    receive(chunk) {
      const { lines, endless } = splitter.push(chunk);
      if (endless) instrument.overrun();
      waiting.push(...lines);
      if (working === null) work();
    },
    stop() {
      stopped = true;
      if (working !== null) clearTimeout(working);
    },
  };
}
