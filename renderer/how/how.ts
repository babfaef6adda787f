/** How a number came about: what its popover says. */
export type HowShare = Readonly<{ name: string; uDb: number; basis: string }>;
/** One line of a list in a popover: a part that was weighed, a row that was left out. */
export type HowItem = Readonly<{ name: string; text: string }>;
export type How = Readonly<{
  title: string;
  /** The number again, with unit and what it is good to. */
  value: string;
  /** Said in one or two sentences. */
  words: string;
  formula: string;
  /** Against what it was held, and how likely it lies inside; null where nothing says what it should be. */
  judged: string | null;
  /** What belongs to it one by one; empty where there is nothing to list. */
  items: readonly HowItem[];
  /** What it is uncertain by, part by part; empty where nothing is known of it. */
  shares: readonly HowShare[];
  /** The parts together, standard uncertainty, dB; null where nothing is known. */
  uDb: number | null;
  /** Whose numbers of uncertainty these are. */
  sheet: string | null;
  source: string;
}>;

/** Rules that the trade goes by and nobody has published. */
export const PRACTICE = 'Common practice, no published source.';

/** A number whose uncertainty is not taken apart. */
export const plainHow = (
  parts: Pick<How, 'title' | 'value' | 'words' | 'formula' | 'source'> &
    Partial<Pick<How, 'judged' | 'items'>>,
): How => ({ judged: null, items: [], shares: [], uDb: null, sheet: null, ...parts });
