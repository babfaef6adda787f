import type { MeterFault } from './meter-shop.ts';

/** What a wire tells: bytes as they come, and once that it is gone. Both may be called late or twice. */
export type WireEvents = Readonly<{
  bytes(chunk: Uint8Array): void;
  gone(fault: MeterFault): void;
}>;

/** Bytes out, and an end; below this a serial port or a simulated one. */
export interface ByteWire {
  /** Calls back when the system has taken the bytes. May never call back: a stalled driver does not. */
  write(bytes: Uint8Array, taken: () => void): void;
  /** May hang; whoever calls it holds a timer against it. */
  close(): Promise<void>;
}

/** Starts a wire that reports to `events`. */
export type WireStart = (events: WireEvents) => ByteWire;
