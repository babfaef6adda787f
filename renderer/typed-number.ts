import type { Manner } from './manner.ts';

/** What a person typed: nothing, a number, or something that is none or could be two. */
export type Typed =
  | Readonly<{ kind: 'empty' }>
  | Readonly<{ kind: 'number'; value: number }>
  | Readonly<{ kind: 'unclear'; help: string }>;

const SPACES = /[\s\u00A0\u202F\u2009]/g;
const plain = /^[+-]?(?:\d+[.,]?\d*|[.,]\d+)$/;
/** Thousands parted by one sign and a fraction by the other: it can be read in one way only. */
const parted = /^[+-]?\d{1,3}(?:(?:\.\d{3})+(?:,\d*)?|(?:,\d{3})+(?:\.\d*)?)$/;
/** One to three digits, a sign, three digits: a fraction to some, thousands to others. */
const inTwoWays = /^[+-]?[1-9]\d{0,2}([.,])\d{3}$/;

/**
 * A number as it is typed into a field. Comma and point both begin a fraction, whatever the system writes. What could as well be
 * thousands ("1,234" where a point begins the fraction) is not guessed: it comes back with what to type instead.
 */
export function typedNumber(text: string, { decimal }: Manner): Typed {
  const said = text.replace(/\u2212/g, '-').replace(SPACES, '');
  if (said === '') return { kind: 'empty' };
  const sign = inTwoWays.exec(said)?.[1];
  if (sign !== undefined && sign !== decimal) {
    const help = `${said} can be read in two ways: type ${said.replace(sign, '')}, or ${said.replace(sign, decimal)}.`;
    return { kind: 'unclear', help };
  }
  if (plain.test(said)) return { kind: 'number', value: Number(said.replace(',', '.')) };
  if (parted.test(said)) {
    const last = Math.max(said.lastIndexOf('.'), said.lastIndexOf(','));
    const marks = said.match(/[.,]/g) ?? [];
    // One kind of mark only, more than once: nothing but thousands.
    const hasFraction = new Set(marks).size === 2;
    const whole = (hasFraction ? said.slice(0, last) : said).replace(/[.,]/g, '');
    return { kind: 'number', value: Number(hasFraction ? `${whole}.${said.slice(last + 1)}` : whole) };
  }
  return { kind: 'unclear', help: `${text.trim()} is not a number.` };
}
