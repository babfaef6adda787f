/** A term of the trade, as the help explains it. */
export type Term = Readonly<{
  id: string;
  name: string;
  /** Other words for it, by which it is found as well. */
  also: readonly string[];
  /** Two sentences: what it is, and what one looks at it for. */
  words: string;
  formula: string;
  source: string;
  /** Ids of the terms that belong beside it. */
  see: readonly string[];
}>;

export type Topic = Readonly<{ name: string; terms: readonly Term[] }>;

/** Rules that the trade goes by and nobody has published. */
export const PRACTICE = 'Common practice, no published source.';
/** Words that this program chose for what it does. */
export const OURS = 'This program\u2019s own rule.';
