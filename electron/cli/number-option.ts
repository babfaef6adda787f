import { InvalidArgumentError } from 'commander';

/** What a person writes as a number: no 0x10, no comma, no blank within. */
const DECIMAL = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** An option's number; what is none is refused in the option's own words. */
export const numberOption =
  (quantity: string, least: number) =>
  (text: string): number => {
    const value = DECIMAL.test(text.trim()) ? Number(text) : Number.NaN;
    if (!Number.isFinite(value)) throw new InvalidArgumentError(`${quantity} is a number such as 1.5`);
    if (value < least) throw new InvalidArgumentError(`${quantity} is ${least} or more`);
    return value;
  };
