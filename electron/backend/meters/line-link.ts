import type { MeterFault } from './meter-shop.ts';

/**
 * A meter's wire as questions and answers, a line each: a serial port, a pseudo-terminal, or an instrument inside
 * this process. Everything that a wire can do by itself (errors, closing, late bytes) ends behind this interface.
 */
export interface LineLink {
  /**
   * Sends a line and gives the next whole line that comes back. One question is in flight at a time; the next one
   * waits. Rejects with the signal's reason when it aborts, with `MeterFault` when the link is gone.
   */
  ask(line: string, signal: AbortSignal): Promise<string>;
  /** Sends a line that has no answer; done when the system has taken it. Rejects as `ask` does. */
  tell(line: string, signal: AbortSignal): Promise<void>;
  /** Settles when the link went without having been asked to close; stays pending after `close()`. */
  readonly lost: Promise<MeterFault>;
  /** Idempotent; done within a second whatever the driver does. */
  close(): Promise<void>;
}

/** What the lines of one kind of meter look like on the wire. */
export type LineFormat = Readonly<{
  /** Sent behind every line. */
  terminator: string;
  /** True for a meter that talks unasked: what comes before the first line end may be half a line. */
  discardFirstLine: boolean;
  /** How long an answer that nobody waits for any more keeps the wire, so that it is not taken for the next one's. */
  lateAnswerMs: number;
}>;
