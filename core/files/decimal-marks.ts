import { done, type Result, refuse } from '../result.ts';

export type DecimalSign = '.' | ',';

/** What the marks of a column mean. Either is null where nothing shows it. */
export type Marks = Readonly<{ decimal: DecimalSign | null; thousands: DecimalSign | null }>;

type Placed = Readonly<{ digits: string; where: string }>;

/** What is known besides the column's own numbers. */
export type BesideMarks = Readonly<{
  /** The decimal sign that other columns of the file are certain of. */
  elsewhere?: DecimalSign | null;
  /** Whether a number without its mark would be more than its quantity can be: then a point begins a fraction. */
  isTooLarge?: (whole: number) => boolean;
}>;

const asNumber = (digits: string): number => Number(digits.replace(/[.,]/g, ''));
/** One mark and then exactly three digits: a fraction or a thousand, nobody can tell. */
const mayBeThousands = /^[+-]?[1-9]\d{0,2}[.,]\d{3}$/;
const byThousands = /^[+-]?\d{1,3}([.,])\d{3}(?:\1\d{3})+$/;
const thousandsAndFraction = /^[+-]?\d{1,3}([.,])\d{3}(?:\1\d{3})*([.,])\d+$/;

/** What one number shows by itself; null for what can be no number, 'doubtful' for what can be read in two ways. */
function shownBy(digits: string, separator: string): Marks | 'doubtful' | null {
  const from = digits.search(/[.,]/);
  const marks = from < 0 ? '' : digits.slice(from).replace(/[^.,]/g, '');
  const first: DecimalSign = marks.startsWith(',') ? ',' : '.';
  if (marks === '') return { decimal: null, thousands: null };
  if (marks.length === 1)
    return mayBeThousands.test(digits) && !(separator === ',' && first === '.')
      ? 'doubtful'
      : { decimal: first, thousands: null };
  if (byThousands.test(digits)) return { decimal: null, thousands: first };
  if (!thousandsAndFraction.test(digits) || marks.endsWith(first)) return null;
  return { decimal: first === '.' ? ',' : '.', thousands: first };
}

type Certain = { decimal: DecimalSign | null; thousands: DecimalSign | null };
/** Adds what a number shows to what is certain; false where the two contradict each other. */
function agreed(certain: Certain, shown: Marks): boolean {
  certain.decimal ??= shown.decimal;
  certain.thousands ??= shown.thousands;
  const same = (a: DecimalSign | null, b: DecimalSign | null) => a === null || b === null || a === b;
  return (
    same(certain.decimal, shown.decimal) &&
    same(certain.thousands, shown.thousands) &&
    (certain.decimal === null || certain.decimal !== certain.thousands)
  );
}

/**
 * Decides for a column which mark begins a fraction and which parts thousands.
 * @param numbers    every number of the column as written
 * @param separator  between cells; with a comma there, a comma is never the decimal sign
 * @param beside     what else is known
 * @returns  the marks; or a refusal of the first number that can be read in two ways, or contradicts the others
 * @source   contract, section 1: nothing is guessed silently; that two marks three digits apart part thousands is
 *           common practice, no published source
 */
export function marksOf(
  numbers: readonly Placed[],
  separator: string,
  beside: BesideMarks = {},
): Result<Marks, 'ambiguous-number'> {
  const ambiguous = (number: Placed, help: string) => refuse('ambiguous-number', number.where, help);
  const certain: Certain = { decimal: null, thousands: null };
  const doubtful: Placed[] = [];
  for (const number of numbers) {
    const shown = shownBy(number.digits, separator);
    if (shown === null)
      return ambiguous(
        number,
        `"${number.digits}" has more than one mark; write it without marks for thousands`,
      );
    if (shown === 'doubtful') {
      doubtful.push(number);
      continue;
    }
    if (separator === ',' && shown.decimal === ',')
      return ambiguous(
        number,
        `"${number.digits}" has a comma, and commas part the cells; write it with a decimal point, or part the cells with semicolons`,
      );
    if (!agreed(certain, shown))
      return ambiguous(number, `"${number.digits}" has another decimal sign than the numbers before it`);
  }
  for (const number of doubtful) {
    const sign: DecimalSign = number.digits.includes(',') ? ',' : '.';
    if (certain.decimal === sign || certain.thousands === sign) continue;
    const known = certain.decimal ?? beside.elsewhere ?? null;
    const isFraction =
      known === sign ||
      (known === null && sign === '.' && beside.isTooLarge?.(asNumber(number.digits)) === true);
    if (isFraction && certain.thousands !== sign && separator !== sign) {
      certain.decimal = sign;
      continue;
    }
    const bare = number.digits.replace(/[.,]/, '');
    return ambiguous(
      number,
      `"${number.digits}" may be ${bare} or ${number.digits.replace(',', '.')}; write it with another number of decimals`,
    );
  }
  return done({ ...certain });
}

/**
 * A number without marks for thousands and with a decimal point.
 * @param digits  as written
 * @param marks   of its column
 * @returns  the same number for any reader of numbers
 * @source   contract, section 1
 */
export function plainDigits(digits: string, marks: Marks): string {
  const whole = marks.thousands === null ? digits : digits.replaceAll(marks.thousands, '');
  return whole.includes(',') ? whole.replace(',', '.') : whole;
}
