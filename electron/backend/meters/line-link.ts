import type { MeterFault } from './meter-shop.ts';

export type { LineFormat } from './profile.ts';

/** What came where a block was asked for: its bytes without the header, or a line in its place. */
export type BlockAnswer =
  | Readonly<{ kind: 'block'; data: Uint8Array }>
  | Readonly<{ kind: 'line'; line: string }>;

/** Hears everything on a wire, in the order in which it happened. */
export type Tap = Readonly<{
  said(bytes: Uint8Array): void;
  heard(bytes: Uint8Array): void;
  /** Nobody waits for the answer to the last question any more. */
  gaveUp(): void;
}>;

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
  /** Sends a line that is answered with a block of definite length (IEEE 488.2), at most so long. Rejects as `ask`. */
  askBlock(line: string, mostBytes: number, signal: AbortSignal): Promise<BlockAnswer>;
  /** Sends a line that has no answer; done when the system has taken it. Rejects as `ask` does. */
  tell(line: string, signal: AbortSignal): Promise<void>;
  /** From now on this one hears everything; null: nobody does. */
  listen(tap: Tap | null): void;
  /** Settles when the link went without having been asked to close; stays pending after `close()`. */
  readonly lost: Promise<MeterFault>;
  /** Idempotent; done within a second whatever the driver does. */
  close(): Promise<void>;
}
