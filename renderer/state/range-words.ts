import type { RangeVerdict } from '../../core/gain-control/range.ts';

/** A range test's verdict as it is said after the word "range". */
export const rangeVerdictWords: Record<RangeVerdict, string> = {
  pass: 'in order',
  undecided: 'undecided',
  fail: 'out of its limits',
};
