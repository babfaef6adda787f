import { done, type Result, refuse } from '../result.ts';
import { withoutVerdict } from './cell-marks.ts';
import { type DecimalSign, marksOf } from './decimal-marks.ts';

export type { DecimalSign } from './decimal-marks.ts';

/**
 * What a cell says: nothing, a number with whatever unit stands behind it, or words. `mark`: what stood beside the number
 * and says how good it is.
 */
export type Written =
  | Readonly<{ kind: 'blank' }>
  | Readonly<{ kind: 'number'; digits: string; unit: string; mark?: string }>
  | Readonly<{ kind: 'words'; words: string }>;

/** What most cells are. */
const plainNumber = /^[+-]?\d+(?:[.,]\d+)?$/;
/** And what most cells with a unit are. */
const plainWithUnit = /^([+-]?\d+(?:[.,]\d+)?) ?([A-Za-z]{1,5})$/;
const numberAndUnit =
  /^([+-]?(?:\d+(?:[.,]\d+)*|[.,]\d+)(?:e[+-]?\d+)?)\s*([a-z\u00B5\u03BC][a-z\u00B5\u03BC ]*(?:[(@]?\s*75\s*(?:ohms?|\u03A9|\u2126)\)?)?|dbm ?(?:\/ ?(?:50|75)|[(@[] ?50|(?:at |in |into )?50(?= ?-?(?:ohms?|\u03A9|\u2126))) ?-?(?:ohms?|\u03A9|\u2126)?[)\]]?)?$/i;
const nothing =
  /^(-+|[\u2014\u2013]+|n\/?a|n\.a\.?|none|null|nan|not available|unknown)(?: ?(?:[kmg]?hz|db(?:[m\u00B5\u03BCu]v|m)?|[m\u00B5\u03BCu]v))?$/i;
const unseen = String.raw`[\u200B-\u200F\u202A-\u202E\u2060\u2066-\u2069\uFEFF]+`;
const unseenAtEnds = new RegExp(`^${unseen}|${unseen}$`, 'g');
/** Thousands parted by a blank or an apostrophe, as some countries write them. */
const grouped = /^([+-]?\d{1,3})((?:[ '\u2019]\d{3})+)(?![\d])/;

/**
 * What one cell says.
 * @param cell  trimmed
 * @returns  `blank` also for the usual signs of no value (-, n/a, none)
 * @source   common practice, no published source
 */
export function writtenIn(cell: string): Written {
  if (plainNumber.test(cell)) return { kind: 'number', digits: cell, unit: '' };
  const united = plainWithUnit.exec(cell);
  if (united !== null) return { kind: 'number', digits: united[1] ?? '', unit: united[2] ?? '' };
  // A typographic minus and a no-break space are what spreadsheets and web pages write for the plain ones.
  const plain = cell
    // Signs that are not seen, at its ends alone: inside of a number they might part two.
    .replace(unseenAtEnds, '')
    .replace(/\u2212/g, '-')
    // A word processor makes a dash of it; straight before a number it is a minus all the same.
    .replace(/^[\u2010-\u2013\uFE63\uFF0D](?=\d)/, '-')
    .replace(/[\u00A0\u202F\u2009]/g, ' ')
    .trim()
    // Some print a sign in a place of its own.
    .replace(/^([+-]) (?=\d)/, '$1')
    // A spreadsheet's sign that what follows is kept as text.
    .replace(/^'(?=[+-]?\d)/, '');
  if (plain === '' || nothing.test(plain)) return { kind: 'blank' };
  const whole = plain.replace(
    grouped,
    (_all, first: string, rest: string) => first + rest.replace(/\D/g, ''),
  );
  const beside = withoutVerdict(cell);
  if (beside !== null) {
    const one = writtenIn(beside.bare);
    return one.kind === 'number' ? { ...one, mark: beside.mark } : { kind: 'words', words: cell };
  }
  const match = numberAndUnit.exec(whole);
  if (match === null) return { kind: 'words', words: cell };
  return { kind: 'number', digits: match[1] ?? '', unit: (match[2] ?? '').trim() };
}

/** A number as written and where it stands. */
export type Placed = Readonly<{ digits: string; where: string }>;

/**
 * Decides once for a whole file which sign begins a fraction, where it has no marks for thousands.
 * @param numbers    every number of the file as written
 * @param separator  between cells; with a comma there, a comma is never the decimal sign
 * @returns  the sign, or null when no number has a fraction; or a refusal of the first number that can be read in two
 *           ways or parts its thousands
 * @source   contract, section 1: nothing is guessed silently
 */
export function decimalSign(
  numbers: readonly Placed[],
  separator: string,
): Result<DecimalSign | null, 'ambiguous-number'> {
  const parted = numbers.find(({ digits }) => digits.replace(/[^.,]/g, '').length > 1);
  if (parted !== undefined)
    return refuse(
      'ambiguous-number',
      parted.where,
      `"${parted.digits}" has more than one mark; write it without marks for thousands`,
    );
  const marks = marksOf(numbers, separator);
  return marks.ok ? done(marks.value.decimal) : marks;
}

/**
 * A number as written to its value.
 * @param digits  with at most one mark, which has been decided to be the decimal sign
 * @returns  finite, or null when it is too large for any quantity here
 * @source   contract, section 1
 */
export function numberWritten(digits: string): number | null {
  const value = Number(digits.includes(',') ? digits.replace(',', '.') : digits);
  return Number.isFinite(value) ? value : null;
}
