import type { z } from 'zod';

type Issue = z.core.$ZodIssue;

/** What each kind of JSON value is called, and what to write for it. */
const kinds: Readonly<Record<string, string>> = {
  number: 'a number',
  int: 'a whole number',
  string: 'a text in quotes',
  boolean: 'true or false',
  array: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
};

const kindOf = (value: unknown): string => {
  if (value === null) return 'null';
  return Array.isArray(value) ? 'a list' : (kinds[typeof value] ?? 'something else');
};

const listOf = (values: readonly unknown[]): string =>
  values.map((value) => JSON.stringify(value)).join(' or ');

const oneOf = (values: readonly unknown[], value: unknown): string =>
  value === undefined ? `is missing; write ${listOf(values)}` : `must be ${listOf(values)}`;

/** A bound of a number, or of how many entries a list or letters a text has. */
function bound(issue: Extract<Issue, { code: 'too_small' | 'too_big' }>): string {
  const [than, most, exact] =
    issue.code === 'too_small'
      ? (['above', 'at least', issue.minimum] as const)
      : (['below', 'at most', issue.maximum] as const);
  const words = `${issue.inclusive === false ? than : most} ${exact}`;
  if (issue.origin === 'array') return `must hold ${words} ${Number(exact) === 1 ? 'entry' : 'entries'}`;
  if (issue.origin === 'string') return `must have ${words} ${Number(exact) === 1 ? 'letter' : 'letters'}`;
  return `must be ${words}`;
}

/**
 * What is wrong with a value of a JSON file, and what to write instead, in a person's words.
 * @param issue  as the schema found it
 * @param value  what stands there; undefined where nothing does
 * @returns  a line without its place; the schema's own message where that was written by us
 * @source   contract, section 3: one line says what, where and what would help
 */
export function schemaWords(issue: Issue, value: unknown): string {
  if (issue.code === 'unrecognized_keys')
    return `no such key is known: ${listOf(issue.keys)}; take it out, or look at its spelling`;
  if (issue.code === 'invalid_type') {
    const wanted = kinds[issue.expected] ?? issue.expected;
    return value === undefined
      ? `is missing; write ${wanted}`
      : `${kindOf(value)} stands here; write ${wanted}`;
  }
  if (issue.code === 'invalid_value') return oneOf(issue.values, value);
  if (issue.code === 'invalid_union' && 'options' in issue && issue.options !== undefined)
    return oneOf(issue.options, value);
  return issue.code === 'too_small' || issue.code === 'too_big' ? bound(issue) : issue.message;
}

/**
 * What stands at a place in a JSON value.
 * @param path  keys and indices from the outside in
 * @returns  the value; undefined where there is none
 * @source   this program's own
 */
export const valueAt = (raw: unknown, path: readonly PropertyKey[]): unknown =>
  path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null && Object.hasOwn(value, key)
        ? Reflect.get(value, key)
        : undefined,
    raw,
  );
