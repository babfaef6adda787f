import type { PlanName } from '../../core/channels/channel.ts';
import { learnLineUp } from '../../core/channels/learn-line-up.ts';
import { checkedLineUp, type LineUpEntry, usualOffset } from '../../core/channels/line-up.ts';
import { signalOf } from '../../core/channels/normalize.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { refusalLine } from '../../core/result.ts';

/** A line-up while it is looked over: entries in rising frequency, and what is still in doubt. */
export type LineUpDraft = Readonly<{
  entries: readonly LineUpEntry[];
  plan: PlanName | null;
  /** By frequency, why this channel should be looked at. */
  doubts: ReadonlyMap<number, readonly string[]>;
  /** Doubts about the whole of it. */
  whole: readonly string[];
  leftOutCount: number;
}>;

export const keptDraft = (entries: readonly LineUpEntry[]): LineUpDraft => ({
  entries,
  plan: null,
  doubts: new Map(),
  whole: [],
  leftOutCount: 0,
});

/** The line-up that a sweep suggests; null where it has no carrier. */
export function learnedDraft(rows: readonly LevelRow[], plan?: PlanName): LineUpDraft | null {
  const learned = learnLineUp(rows, plan);
  if (!learned.ok) return null;
  const doubts = new Map<number, string[]>();
  const whole: string[] = [];
  for (const { frequencyMhz, why } of learned.value.uncertain)
    if (frequencyMhz === null) whole.push(why);
    else doubts.set(frequencyMhz, [...(doubts.get(frequencyMhz) ?? []), why]);
  const { entries, leftOut } = learned.value;
  return { entries, plan: learned.value.plan, doubts, whole, leftOutCount: leftOut.length };
}

export type EntryChange = Partial<
  Pick<LineUpEntry, 'channelLabel' | 'frequencyMhz' | 'kind' | 'offsetDb' | 'widthMhz'> & {
    qamOrder: number;
  }
>;

function changedEntry(entry: LineUpEntry, change: EntryChange): LineUpEntry {
  const kind = change.kind ?? entry.kind;
  const order = kind === 'qam' ? (change.qamOrder ?? entry.qamOrder) : undefined;
  const isOtherSignal = kind !== entry.kind || order !== entry.qamOrder;
  const usual = isOtherSignal ? usualOffset(kind, order) : null;
  // What another kind is usually carried at comes with it; a typed offset goes before that.
  const offsetDb = change.offsetDb ?? (usual?.ok === true ? usual.value.offsetDb : entry.offsetDb);
  // A tone has no width; what was one and is none now is as wide as a channel usually is.
  const wide = change.widthMhz ?? entry.widthMhz;
  const widthMhz = kind === 'cw' ? 0 : wide === 0 ? 6 : wide;
  return {
    channelLabel: change.channelLabel ?? entry.channelLabel,
    frequencyMhz: change.frequencyMhz ?? entry.frequencyMhz,
    kind,
    ...(order === undefined ? {} : { qamOrder: order }),
    widthMhz,
    offsetDb,
  };
}

/** Changes the chosen entries. Who says what a channel carries settles the doubt about it. */
export function withChange(
  draft: LineUpDraft,
  chosenMhz: ReadonlySet<number>,
  change: EntryChange,
): LineUpDraft {
  const entries = draft.entries
    .map((entry) => (chosenMhz.has(entry.frequencyMhz) ? changedEntry(entry, change) : entry))
    .sort((a, b) => a.frequencyMhz - b.frequencyMhz);
  const doubts = new Map([...draft.doubts].filter(([frequencyMhz]) => !chosenMhz.has(frequencyMhz)));
  return { ...draft, entries, doubts };
}

export const without = (draft: LineUpDraft, chosenMhz: ReadonlySet<number>): LineUpDraft => ({
  ...draft,
  entries: draft.entries.filter(({ frequencyMhz }) => !chosenMhz.has(frequencyMhz)),
  doubts: new Map([...draft.doubts].filter(([frequencyMhz]) => !chosenMhz.has(frequencyMhz))),
});

/** One more channel above the highest, like it; its frequency is what is typed next. */
export function withOneMore(draft: LineUpDraft): Readonly<{ draft: LineUpDraft; addedMhz: number }> {
  const last = draft.entries.at(-1);
  const addedMhz = last === undefined ? 57 : last.frequencyMhz + Math.max(1, last.widthMhz);
  const entry: LineUpEntry = {
    ...(last ?? { kind: 'qam', qamOrder: 256, widthMhz: 6, offsetDb: -6 }),
    channelLabel: `${addedMhz} MHz`,
    frequencyMhz: addedMhz,
  };
  return { draft: { ...draft, entries: [...draft.entries, entry] }, addedMhz };
}

/** What a channel carries, as a person says it: "analog", "256-QAM". */
export const carries = ({ kind, qamOrder, frequencyMhz }: LineUpEntry): string =>
  signalOf({
    frequencyMhz,
    levelDbmv: null,
    kind,
    ...(qamOrder === undefined ? {} : { modulation: `${qamOrder}-QAM` }),
  }).name;

/** The kinds in the order in which they are first met, with the frequencies of each: to choose them by one press. */
export function groupsOf(
  draft: LineUpDraft,
): readonly Readonly<{ name: string; frequenciesMhz: readonly number[] }>[] {
  const groups = new Map<string, number[]>();
  for (const entry of draft.entries) {
    const name = carries(entry);
    groups.set(name, [...(groups.get(name) ?? []), entry.frequencyMhz]);
  }
  return [...groups].map(([name, frequenciesMhz]) => ({ name, frequenciesMhz }));
}

/** True where a line-up says what another one says, whatever was done and undone on the way. */
export const sameEntries = (draft: LineUpDraft, other: LineUpDraft | null): boolean =>
  draft === other || JSON.stringify(draft.entries) === JSON.stringify(other?.entries ?? []);

/** Why a line-up can't be kept as it stands, in one line; null when it can. */
export function troubleOf(draft: LineUpDraft): string | null {
  if (draft.entries.length === 0) return 'There is no channel in it.';
  const checked = checkedLineUp(draft.entries);
  return checked.ok ? null : refusalLine(checked);
}

/**
 * What is carried at a frequency, above or below the design line, dB: that of the nearest channel. For the drawing of a
 * running sweep only; a finished one is judged by core, which names what lies in no channel.
 */
export function nearestOffsetDb(entries: readonly LineUpEntry[]): (frequencyMhz: number) => number {
  const rising = entries.toSorted((a, b) => a.frequencyMhz - b.frequencyMhz);
  return (frequencyMhz) => {
    let low = 0;
    let high = rising.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((rising[middle]?.frequencyMhz ?? 0) < frequencyMhz) low = middle + 1;
      else high = middle;
    }
    const [left, right] = [rising[low - 1], rising[low]];
    if (left === undefined || right === undefined) return (left ?? right)?.offsetDb ?? 0;
    return frequencyMhz - left.frequencyMhz < right.frequencyMhz - frequencyMhz
      ? left.offsetDb
      : right.offsetDb;
  };
}
