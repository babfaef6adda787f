/**
 * What a rule of thumb's number rests on: the rule itself (`practice`), a straight line between two of its numbers
 * (`interpolated`), or its end slope going on (`extrapolated`).
 */
export type Basis = 'practice' | 'interpolated' | 'extrapolated';

/** Said wherever a number of the gain-control rules is shown. */
export const PRACTICE_NOTE = 'common practice, no published source';

/**
 * How a basis is said beside its number.
 * @returns  words without a full stop
 * @source   common practice, no published source: that is what the words say
 */
export function basisWords(basis: Basis): string {
  switch (basis) {
    case 'practice':
      return PRACTICE_NOTE;
    case 'interpolated':
      return `interpolated between numbers of ${PRACTICE_NOTE}`;
    case 'extrapolated':
      return `extrapolated from numbers of ${PRACTICE_NOTE}`;
  }
}
