import { canonicalText, type Plain, type PlainObject } from './canonical-text.ts';

/** Where two records of one name say otherwise, each side in words. */
export type Difference = Readonly<{ key: string; here: string; other: string }>;

const LONGEST = 60;
const isObject = (value: Plain | undefined): value is PlainObject =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isList = (value: Plain | undefined): value is readonly Plain[] => Array.isArray(value);
const text = (value: Plain): string =>
  value === null || typeof value !== 'object' ? String(value) : canonicalText({ value });

function worded(value: Plain | undefined): string {
  if (value === undefined) return 'not there';
  if (value === null) return 'none';
  if (isList(value)) return `${value.length} in a list`;
  const whole = text(value);
  return whole.length > LONGEST ? `${whole.slice(0, LONGEST - 1)}…` : whole;
}

function* between(here: Plain | undefined, other: Plain | undefined, key: string): Generator<Difference> {
  if (isObject(here) && isObject(other)) {
    for (const name of new Set([...Object.keys(here), ...Object.keys(other)]))
      yield* between(here[name], other[name], key === '' ? name : `${key}.${name}`);
    return;
  }
  if (isList(here) && isList(other) && here.length === other.length) {
    const odd = here.flatMap((value, i) => (text(value) === text(other[i] ?? null) ? [] : [i]));
    const [first] = odd;
    if (first === undefined) return;
    const rest = odd.length === 1 ? '' : `, and ${odd.length - 1} more`;
    yield {
      key: `${key} ${first + 1}`,
      here: `${worded(here[first])}${rest}`,
      other: `${worded(other[first])}${rest}`,
    };
    return;
  }
  if (here !== undefined && other !== undefined && text(here) === text(other)) return;
  yield { key, here: worded(here), other: worded(other) };
}

/**
 * What two records of one name say otherwise.
 * @param here   the one that counts
 * @param other  the other
 * @returns  each key whose values differ, in the order of the first record; of a list the first place, counted from 1
 * @source   common practice, no published source
 */
export const differencesOf = (here: PlainObject, other: PlainObject): readonly Difference[] => [
  ...between(here, other, ''),
];
