import { blockStart } from '../../../core/meters/trace-block.ts';

/** What the bytes so far are, and which of them belong to what comes next. */
export type Collected =
  | Readonly<{ kind: 'more' }>
  /** Whole, with its line end. */
  | Readonly<{ kind: 'block'; data: Uint8Array; rest: Uint8Array }>
  /** No block: all of it is text. */
  | Readonly<{ kind: 'text'; bytes: Uint8Array }>
  /** It did not end where its header said: a byte was lost or added on the way. */
  | Readonly<{ kind: 'damaged'; rest: Uint8Array }>;

const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;
const isLineEnd = (byte: number | undefined) => byte === LINE_FEED || byte === CARRIAGE_RETURN;

/** Collects one block of definite length, whatever the pieces. Line ends in front of it are left from the line before. */
export function createBlockCollector(mostBytes: number): { push(chunk: Uint8Array): Collected } {
  let begun = new Uint8Array();
  return {
    push(chunk) {
      const first = begun.length === 0 ? chunk.findIndex((byte) => !isLineEnd(byte)) : 0;
      if (first < 0) return { kind: 'more' };
      const joined = new Uint8Array(begun.length + chunk.length - first);
      joined.set(begun);
      joined.set(chunk.subarray(first), begun.length);
      begun = joined;
      const start = blockStart(begun, mostBytes);
      if (start.kind === 'more') return start;
      if (start.kind === 'not-a-block') return { kind: 'text', bytes: begun };
      const end = start.headerBytes + start.dataBytes;
      if (begun.length <= end) return { kind: 'more' };
      const rest = begun.subarray(end);
      return isLineEnd(rest[0])
        ? { kind: 'block', data: begun.slice(start.headerBytes, end), rest }
        : { kind: 'damaged', rest };
    },
  };
}
