import { done, type Result, refuse } from '../result.ts';

/** What a cell says: nothing, a number with whatever unit stands behind it, or words. */
export type Written =
  | Readonly<{ kind: 'blank' }>
  | Readonly<{ kind: 'number'; digits: string; unit: string }>
  | Readonly<{ kind: 'words'; words: string }>;

export type DecimalSign = '.' | ',';

const numberAndUnit = /^([+-]?(?:\d+(?:[.,]\d+)*|[.,]\d+)(?:e[+-]?\d+)?)\s*([a-zµμ][a-zµμ ]*)?$/i;
const nothing = /^(-+|—|–|n\/?a|none|null|nan)?$/i;

/**
 * What one cell says.
 * @param cell  trimmed
 * @returns  `blank` also for the usual signs of no value (-, n/a, none)
 * @source   common practice, no published source
 */
export function writtenIn(cell: string): Written {
  // A typographic minus and a no-break space are what spreadsheets and web pages write for the plain ones.
  const plain = cell
    .replace(/\u2212/g, '-')
    .replace(/[\u00A0\u202F]/g, ' ')
    .trim();
  if (nothing.test(plain)) return { kind: 'blank' };
  const match = numberAndUnit.exec(plain);
  if (match === null) return { kind: 'words', words: cell };
  return { kind: 'number', digits: match[1] ?? '', unit: (match[2] ?? '').trim() };
}

/** A number as written and where it stands. */
export type Placed = Readonly<{ digits: string; where: string }>;

const marks = (digits: string): number => digits.replace(/[^.,]/g, '').length;
/** One mark and then exactly three digits: a fraction or a thousand, nobody can tell. */
const mayBeThousands = (digits: string): boolean => /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/.test(digits);

/**
 * Decides once for a whole file which sign begins a fraction.
 * @param numbers    every number of the file as written
 * @param separator  between cells; with a comma there, a comma is never the decimal sign
 * @returns  the sign, or null when no number has a fraction; or a refusal of the first number that can be read in two
 *           ways
 * @source   contract, section 1: nothing is guessed silently
 */
export function decimalSign(
  numbers: readonly Placed[],
  separator: string,
): Result<DecimalSign | null, 'ambiguous-number'> {
  const ambiguous = (number: Placed, help: string) => refuse('ambiguous-number', number.where, help);
  let certain: DecimalSign | null = null;
  let doubtful: Placed | null = null;
  for (const number of numbers) {
    const count = marks(number.digits);
    if (count === 0) continue;
    if (count > 1)
      return ambiguous(
        number,
        `"${number.digits}" has more than one mark; write it without marks for thousands`,
      );
    const sign: DecimalSign = number.digits.includes(',') ? ',' : '.';
    if (separator === ',' && sign === ',')
      return ambiguous(
        number,
        `"${number.digits}" has a comma, and commas part the cells; write it with a decimal point, or part the cells with semicolons`,
      );
    if (separator !== ',' && mayBeThousands(number.digits)) {
      doubtful ??= number;
      continue;
    }
    if (certain !== null && certain !== sign)
      return ambiguous(number, `"${number.digits}" has another decimal sign than the numbers before it`);
    certain = sign;
  }
  if (doubtful === null) return done(certain);
  const sign: DecimalSign = doubtful.digits.includes(',') ? ',' : '.';
  if (certain === sign) return done(certain);
  const bare = doubtful.digits.replace(/[.,]/, '');
  return ambiguous(
    doubtful,
    `"${doubtful.digits}" may be ${bare} or ${doubtful.digits.replace(',', '.')}; write it with another number of decimals`,
  );
}

/**
 * A number as written to its value.
 * @param digits  with at most one mark, which `decimalSign` has decided to be the decimal sign
 * @returns  finite, or null when it is too large for any quantity here
 * @source   contract, section 1
 */
export function numberWritten(digits: string): number | null {
  const value = Number(digits.replace(',', '.'));
  return Number.isFinite(value) ? value : null;
}
