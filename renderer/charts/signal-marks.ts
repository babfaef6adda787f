import type { ChartRow } from './rows.ts';

/** What the mark of a channel looks like on the strip: told apart by shape, never by colour alone. */
export type SignalShape = 'bar' | 'arrow' | 'hollow' | 'pin' | 'stem';

/** QAM a full bar, analog one with a head, OFDM a hollow bar, a pilot a pin; what is not known a bare stem. */
export function shapeOf(signal: string | null): SignalShape {
  if (signal === null) return 'bar';
  if (signal.startsWith('analog')) return 'arrow';
  if (signal.includes('QAM')) return 'bar';
  if (signal.startsWith('OFDM')) return 'hollow';
  if (signal.startsWith('pilot')) return 'pin';
  return 'stem';
}

/** "256-QAM" of "256-QAM at -6 dB": on the strip the word alone, because the bars start where it is carried. */
const wordOf = (signal: string): string => signal.replace(/ at -?[\d.]+ dB$/, '');

/** Neighbouring channels that carry one kind of signal. */
export type SignalRun = Readonly<{ word: string; lowMhz: number; highMhz: number; count: number }>;

/** The runs along the band, in rising frequency; none where everything is of one kind: then the shape says nothing. */
export function signalRuns(rows: readonly ChartRow[]): readonly SignalRun[] {
  const runs: SignalRun[] = [];
  for (const { signal, frequencyMhz, deviationDb } of rows) {
    if (signal === null || deviationDb === null) continue;
    const word = wordOf(signal);
    const last = runs.at(-1);
    if (last?.word === word)
      runs[runs.length - 1] = { ...last, highMhz: frequencyMhz, count: last.count + 1 };
    else runs.push({ word, lowMhz: frequencyMhz, highMhz: frequencyMhz, count: 1 });
  }
  return new Set(runs.map(({ word }) => word)).size > 1 ? runs : [];
}

export type SignalWord = Readonly<{ key: string; text: string; x: number }>;

/**
 * Where to write each kind's name: over its longest runs first, as long as no two touch. Every kind is named at least
 * once while there is room.
 */
export function signalWords(
  runs: readonly SignalRun[],
  x: (frequencyMhz: number) => number,
  plot: Readonly<{ left: number; right: number }>,
): readonly SignalWord[] {
  const placed: (SignalWord & { from: number; to: number })[] = [];
  const named = new Set<string>();
  const longest = runs.toSorted((a, b) => b.count - a.count);
  // First one name a kind, then more of them where a kind comes again.
  for (const again of [false, true])
    for (const run of longest) {
      if (named.has(run.word) !== again) continue;
      const half = run.word.length * 4 + 4;
      const middle = (x(run.lowMhz) + x(run.highMhz)) / 2;
      const at = Math.min(plot.right - half, Math.max(plot.left + half, middle));
      const span = { from: at - half, to: at + half };
      const key = `${run.word} ${run.lowMhz}`;
      if (placed.some((other) => other.key === key || (span.from < other.to && other.from < span.to)))
        continue;
      if (again && x(run.highMhz) - x(run.lowMhz) < half * 2) continue;
      named.add(run.word);
      placed.push({ key, text: run.word, x: at, ...span });
    }
  return placed.map(({ key, text, x: at }) => ({ key, text, x: at }));
}
