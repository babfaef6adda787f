import { InvalidArgumentError } from 'commander';

/** An option's number; what is none is refused in the option's own words. */
export const numberOption =
  (quantity: string, least: number) =>
  (text: string): number => {
    const value = text.trim() === '' ? Number.NaN : Number(text);
    if (!Number.isFinite(value) || !/^[+-]?[\d.]/.test(text.trim()))
      throw new InvalidArgumentError(`${quantity} is a number such as 1.5`);
    if (value < least) throw new InvalidArgumentError(`${quantity} is ${least} or more`);
    return value;
  };
