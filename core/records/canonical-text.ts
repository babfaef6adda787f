/** A record as it is hashed and passed on: whole numbers, text, null, lists and objects of the same, and nothing else. */
export type Plain = number | string | null | readonly Plain[] | PlainObject;
export type PlainObject = Readonly<{ [key: string]: Plain }>;

/** Keys in the order of their UTF-16 code units, as RFC 8785, section 3.2.3, has it; plain comparison does just that. */
const byKey = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Half of a character, which UTF-8 can't write. */
const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/;

function textOf(text: string, where: string): string {
  if (LONE_SURROGATE.test(text)) throw new RangeError(`${where}: half a character`);
  return JSON.stringify(text);
}

function write(value: Plain, where: string): string {
  if (value === null) return 'null';
  if (typeof value === 'string') return textOf(value, where);
  if (typeof value === 'number') {
    // Minus zero would be another spelling of the same number.
    if (!Number.isSafeInteger(value) || Object.is(value, -0))
      throw new RangeError(`${where}: ${value} is no whole number`);
    return String(value);
  }
  if (typeof value !== 'object') throw new RangeError(`${where}: a record can't hold ${typeof value}`);
  if (isList(value)) {
    let text = '[';
    for (let i = 0; i < value.length; i += 1)
      text += `${i === 0 ? '' : ','}${write(value[i] ?? null, where)}`;
    return `${text}]`;
  }
  const parts = Object.keys(value)
    .sort(byKey)
    .map((key) => `${textOf(key, where)}:${write(value[key] ?? null, `${where}.${key}`)}`);
  return `{${parts.join(',')}}`;
}

const isList = (value: Plain): value is readonly Plain[] => Array.isArray(value);

/**
 * The one spelling of a record: JSON after the JSON Canonicalization Scheme, held to whole numbers, so that its bytes
 * as UTF-8 are the same on every machine and in every language.
 * @param document  its numbers whole, of at most 2^53 - 1 either way; keys in any order
 * @returns  the text, without white space, keys in order
 * @throws   RangeError for what a record can't hold: a number with a fraction, minus zero, NaN, an infinity, half a character
 * @source   RFC 8785, JSON Canonicalization Scheme (JCS), sections 3.2.2 and 3.2.3, restricted to whole numbers
 */
export const canonicalText = (document: PlainObject): string => write(document, 'record');
