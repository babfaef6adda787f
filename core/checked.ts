import { type Refusal, refuse } from './result.ts';

/** What a number from a person may be. Both ends belong to it, except a lower end that is marked as open. */
export type Allowed = Readonly<{ unit: string; from: number; to: number; fromIsOpen?: boolean }>;

/** Wide enough for everything on a coaxial network, narrow enough that no power of ten overflows. */
export const LEVEL: Allowed = { unit: 'dBmV', from: -200, to: 200 };
export const RATIO: Allowed = { unit: 'dB', from: -200, to: 200 };
/** A loss, a length, a bandwidth: nothing below 0. */
export const LOSS: Allowed = { unit: 'dB', from: 0, to: 1000 };
export const LENGTH_M: Allowed = { unit: 'm', from: 0, to: 1_000_000 };
export const FREQUENCY: Allowed = { unit: 'MHz', from: 0, to: 100_000, fromIsOpen: true };
/** Outdoors on this planet, and the inside of a housing in the sun. */
export const AMBIENT: Allowed = { unit: 'degrees C', from: -90, to: 150 };
export const COUNT: Allowed = { unit: 'of them', from: 1, to: 1_000_000 };

export type Unfit = 'not-a-number' | 'out-of-range';

/**
 * The first number that is none, or lies outside what is allowed.
 * @param numbers  what each is called, its value, and what it may be (unit and ends in the `Allowed`)
 * @returns  a refusal that names it, or null when all are fit
 * @source   shared practice: a person's mistake is a value, and NaN and infinity never leave a function
 */
export function unfit(
  numbers: readonly (readonly [name: string, value: number, allowed: Allowed])[],
): Refusal<Unfit> | null {
  for (const [name, value, { unit, from, to, fromIsOpen }] of numbers) {
    if (!Number.isFinite(value)) return refuse('not-a-number', name, `give a number in ${unit}`);
    if (value > to || value < from || (fromIsOpen === true && value === from))
      return refuse(
        'out-of-range',
        `${name} ${value} ${unit}`,
        fromIsOpen === true
          ? `must lie above ${from} and not above ${to} ${unit}`
          : `must lie between ${from} and ${to} ${unit}`,
      );
  }
  return null;
}

/**
 * Like `unfit`, for a number of things, which must also be whole.
 * @param name   what is counted
 * @param count  how many, 1 or more
 * @returns  a refusal that names it, or null when it is fit
 * @source   shared practice: a person's mistake is a value
 */
export function unfitCount(name: string, count: number): Refusal<Unfit> | null {
  const wrong = unfit([[name, count, COUNT]]);
  if (wrong !== null || Number.isInteger(count)) return wrong;
  return refuse('out-of-range', `${name} ${count}`, 'give a whole number');
}
