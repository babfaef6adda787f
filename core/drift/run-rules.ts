import type { ControlChart } from './control-chart.ts';

export const ruleIds = [
  'beyond-3-sigma',
  'two-of-three',
  'four-of-five',
  'eight-on-a-side',
  'six-in-a-row',
  'fourteen-alternating',
] as const;
export type RuleId = (typeof ruleIds)[number];

/** What each rule says, and whose it is. */
export const rules: Readonly<Record<RuleId, Readonly<{ words: string; name: string }>>> = {
  'beyond-3-sigma': { words: 'beyond three sigma', name: 'Western Electric 1, Nelson 1' },
  'two-of-three': {
    words: 'two of three beyond two sigma, on one side',
    name: 'Western Electric 2, Nelson 5',
  },
  'four-of-five': {
    words: 'four of five beyond one sigma, on one side',
    name: 'Western Electric 3, Nelson 6',
  },
  'eight-on-a-side': { words: 'eight in a row on one side', name: 'Western Electric 4' },
  'six-in-a-row': { words: 'six in a row, each farther the same way', name: 'Nelson 3' },
  'fourteen-alternating': { words: 'fourteen in a row, up and down by turns', name: 'Nelson 4' },
};

/** A value that breaks a rule, by its place. */
export type Signal = Readonly<{ place: number; rule: RuleId }>;

/** So many of the last values, that one included, lie beyond a limit on its side. */
const enough = (z: readonly number[], place: number, many: number, of: number, beyond: number): boolean => {
  const here = z[place] ?? 0;
  if (!(Math.abs(here) > beyond) || place + 1 < many) return false;
  const side = Math.sign(here);
  const window = z.slice(Math.max(0, place + 1 - of), place + 1);
  return window.filter((one) => one * side > beyond).length >= many;
};

/** The last differences before a place, as many as asked for; null where there are fewer. */
const stepsTo = (values: readonly number[], place: number, count: number): readonly number[] | null =>
  place < count
    ? null
    : Array.from(
        { length: count },
        (_, i) => (values[place - i] ?? 0) - (values[place - i - 1] ?? 0),
      ).reverse();

function breaks(rule: RuleId, values: readonly number[], z: readonly number[], place: number): boolean {
  switch (rule) {
    case 'beyond-3-sigma':
      return Math.abs(z[place] ?? 0) > 3;
    case 'two-of-three':
      return enough(z, place, 2, 3, 2);
    case 'four-of-five':
      return enough(z, place, 4, 5, 1);
    case 'eight-on-a-side':
      return enough(z, place, 8, 8, 0);
    case 'six-in-a-row': {
      const steps = stepsTo(values, place, 5);
      return steps !== null && (steps.every((step) => step > 0) || steps.every((step) => step < 0));
    }
    case 'fourteen-alternating': {
      const steps = stepsTo(values, place, 13);
      return steps?.every((step, i) => step !== 0 && (i === 0 || step * (steps[i - 1] ?? 0) < 0)) ?? false;
    }
  }
}

/**
 * Which values break which rule of a control chart. A value stands for the window that ends with it.
 * @param values  in the order of time, of the chart's unit
 * @param chart   its center and sigma
 * @returns  in the order of time, and of `ruleIds` for one value; empty where nothing moved at all (sigma 0)
 * @source   Western Electric, "Statistical Quality Control Handbook" (1956), and L. S. Nelson, Journal of Quality Technology
 *           16 (1984), 237-239, as listed in NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2; all from memory
 */
export function signalsOf(
  values: readonly number[],
  chart: Pick<ControlChart, 'center' | 'sigma'>,
): readonly Signal[] {
  if (!(chart.sigma > 0)) return [];
  const z = values.map((value) => (value - chart.center) / chart.sigma);
  return values.flatMap((_, place) =>
    ruleIds.filter((rule) => breaks(rule, values, z, place)).map((rule) => ({ place, rule })),
  );
}
