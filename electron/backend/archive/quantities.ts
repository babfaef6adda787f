/*
 * A record holds whole numbers, so that the same fact is always the same bytes. Numbers are rounded once, on the way in,
 * and what goes out as an event is what was kept.
 */

const whole = (value: number, what: string): number => {
  const rounded = Math.round(value);
  if (!Number.isSafeInteger(rounded)) throw new RangeError(`${what} can't be kept: ${value}`);
  // Minus zero would be another spelling of the same number.
  return rounded === 0 ? 0 : rounded;
};

/** MHz to Hz. */
export const hzOf = (frequencyMhz: number): number => whole(frequencyMhz * 1e6, 'a frequency in MHz');
/** Hz to MHz. */
export const mhzOf = (frequencyHz: number): number => frequencyHz / 1e6;
/** dB, dBmV or degrees C to their thousandths. */
export const thousandthsOf = (value: number): number => whole(value * 1000, 'a number');
/** Thousandths to dB, dBmV or degrees C. */
export const fromThousandths = (thousandths: number): number => thousandths / 1000;

/** ISO 8601 to milliseconds since 1970 UTC. */
export const msOf = (moment: string): number => whole(Date.parse(moment), `the time "${moment}"`);
/** Milliseconds since 1970 UTC to ISO 8601 with a trailing Z. */
export const momentOf = (ms: number): string => new Date(ms).toISOString();

/** Null stays null. */
export const maybe = <A, B>(value: A | null, turn: (value: A) => B): B | null =>
  value === null ? null : turn(value);

/** JSON with its keys in order, so that equal values have equal text. */
export function orderedJson(value: unknown): string {
  return JSON.stringify(value, (_key, part: unknown) =>
    part !== null && typeof part === 'object' && !Array.isArray(part)
      ? Object.fromEntries(Object.entries(part).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)))
      : part,
  );
}
