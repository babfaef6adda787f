import type { LinkHealth } from '../../../core/bridge/meter-calls.ts';
import type { Tap } from './line-link.ts';

/** Hears what goes to and fro on a meter's wire, and tells how the link is. Holds the last lines, and no more. */
export type LinkMonitor = Tap &
  Readonly<{
    /** Another link begins: what was counted of the one before is over. */
    began(where: string): void;
    /** One reading came out of what was heard. */
    read(): void;
    /** Reading broke off, or the link is gone. */
    broke(help: string): void;
    health(): LinkHealth;
  }>;

export const LINES_KEPT = 40;
const LONGEST_SHOWN = 200;
/** The pace is that of the readings of so long; a link that rests has none. */
const PACE_OVER_MS = 5000;
const MOST_TIMES = 200;

/** Bytes as text that can be shown: latin1, with everything that has no picture as \xNN. */
const printable = (text: string): string =>
  text.replace(/[^\x20-\x7e\xa1-\xff]/g, (sign) => `\\x${sign.charCodeAt(0).toString(16).padStart(2, '0')}`);
const short = (text: string): string =>
  text.length > LONGEST_SHOWN ? `${text.slice(0, LONGEST_SHOWN)}\u2026` : text;

type Line = Readonly<{ way: 'said' | 'heard' | 'gave-up'; text: string; atMs: number }>;

/** @param clock  ms on a clock that never goes back */
export function createLinkMonitor(clock: () => number): LinkMonitor {
  let where: string | null = null;
  let lines: Line[] = [];
  let times: number[] = [];
  let begun = '';
  let heardAtMs: number | null = null;
  let readingCount = 0;
  let unansweredCount = 0;
  let breakCount = 0;
  let lastProblem: string | null = null;

  const add = (way: Line['way'], raw: string) => {
    lines = [...lines.slice(1 - LINES_KEPT), { way, text: short(printable(raw)), atMs: clock() }];
  };
  const endBegun = () => {
    if (begun !== '') add('heard', begun);
    begun = '';
  };
  const pace = (): number | null => {
    const nowMs = clock();
    const recent = times.filter((atMs) => nowMs - atMs <= PACE_OVER_MS);
    const [first] = recent;
    const last = recent.at(-1);
    if (first === undefined || last === undefined || last <= first) return null;
    return ((recent.length - 1) * 1000) / (last - first);
  };
  return {
    began(there) {
      where = there;
      lines = [];
      times = [];
      begun = '';
      heardAtMs = null;
      readingCount = 0;
      unansweredCount = 0;
      breakCount = 0;
      lastProblem = null;
    },
    said(bytes) {
      endBegun();
      add(
        'said',
        Buffer.from(bytes)
          .toString('latin1')
          .replace(/[\r\n]+$/, ''),
      );
    },
    heard(bytes) {
      heardAtMs = clock();
      const parts = (begun + Buffer.from(bytes).toString('latin1')).split(/[\r\n]+/);
      begun = (parts.pop() ?? '').slice(0, LONGEST_SHOWN + 1);
      for (const part of parts.slice(-LINES_KEPT)) if (part !== '') add('heard', part);
    },
    gaveUp() {
      endBegun();
      unansweredCount += 1;
      add('gave-up', 'no answer in time');
    },
    read() {
      readingCount += 1;
      times = [...times.slice(1 - MOST_TIMES), clock()];
    },
    broke(help) {
      breakCount += 1;
      lastProblem = help;
    },
    health() {
      const nowMs = clock();
      const ago = (atMs: number) => Math.max(0, Math.round(nowMs - atMs));
      const shown =
        begun === ''
          ? lines
          : [...lines, { way: 'heard', text: short(printable(begun)), atMs: nowMs } as const];
      return {
        where,
        readingCount,
        readingsPerSecond: pace(),
        unansweredCount,
        breakCount,
        lastProblem,
        lastAnswerAgoMs: heardAtMs === null ? null : ago(heardAtMs),
        traffic: shown.slice(-LINES_KEPT).map(({ way, text, atMs }) => ({ way, text, agoMs: ago(atMs) })),
      };
    },
  };
}

/** Two who hear the same; the second may be missing. */
export const heardByBoth = (one: Tap, other: Tap | null): Tap =>
  other === null
    ? one
    : {
        said(bytes) {
          one.said(bytes);
          other.said(bytes);
        },
        heard(bytes) {
          one.heard(bytes);
          other.heard(bytes);
        },
        gaveUp() {
          one.gaveUp();
          other.gaveUp();
        },
      };
