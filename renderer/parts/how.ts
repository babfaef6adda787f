/** How a number came about: what its popover says. */
export type HowShare = Readonly<{ name: string; uDb: number; basis: string }>;
export type How = Readonly<{
  title: string;
  /** The number again, with unit and what it is good to. */
  value: string;
  /** Said in one or two sentences. */
  words: string;
  formula: string;
  /** Against what it was held, and how likely it lies inside; null where nothing says what it should be. */
  judged: string | null;
  /** What it is uncertain by, part by part; empty where nothing is known of it. */
  shares: readonly HowShare[];
  /** The parts together, standard uncertainty, dB; null where nothing is known. */
  uDb: number | null;
  /** Whose numbers of uncertainty these are. */
  sheet: string | null;
  source: string;
}>;
