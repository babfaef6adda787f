/** A line is never longer than this, unless told; more without a line end means that the speed is wrong. */
export const LONGEST_LINE = 4096;

/** What came out of a chunk: whole lines in order, and whether a line had to be given up as endless. */
export type Split = Readonly<{ lines: readonly string[]; endless: boolean }>;

export interface LineSplitter {
  push(chunk: Uint8Array): Split;
  /** Drops what is begun and its rest up to the line end. Mere control characters are dropped without a rest. */
  dropBegun(): void;
}

const LINE_FEED = 0x0a;
const CARRIAGE_RETURN = 0x0d;
/** Blanks and control characters (C0, DEL, C1) at either end: padding, wake-up noise, a stray NUL. */
const edges = /^[\s\p{Cc}]+|[\s\p{Cc}]+$/gu;

/**
 * Bytes to lines, whatever the pieces: latin1, ended by CR or LF, empty lines left out. There is deliberately no
 * "end": a remainder without a line end is never a line, because `-1` of `-12.3` would look like a reading.
 * Control characters are stripped at the ends only. Inside a line they stay, so that a line with a damaged byte in it
 * fails the grammar: taking one out of a number would leave another number.
 */
export function createLineSplitter(discardFirstLine: boolean, longestLine = LONGEST_LINE): LineSplitter {
  let begun: number[] = [];
  let skipping = discardFirstLine;
  let sinceLineEnd = 0;
  return {
    push(chunk) {
      const lines: string[] = [];
      let endless = false;
      for (const byte of chunk) {
        if (byte === LINE_FEED || byte === CARRIAGE_RETURN) {
          const line = skipping ? '' : Buffer.from(begun).toString('latin1').replace(edges, '');
          if (line !== '') lines.push(line);
          begun = [];
          skipping = false;
          sinceLineEnd = 0;
          continue;
        }
        if (!skipping) begun.push(byte);
        sinceLineEnd += 1;
        if (sinceLineEnd > longestLine) {
          begun = [];
          skipping = true;
          endless = true;
          sinceLineEnd = 0;
        }
      }
      return { lines, endless };
    },
    dropBegun() {
      const begunText = Buffer.from(begun).toString('latin1').replace(edges, '');
      begun = [];
      if (begunText !== '') skipping = true;
    },
  };
}
