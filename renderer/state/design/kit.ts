/** The values of a kit as a person says them: a run in equal steps, and what comes on top. All in dB; null is an empty field. */
export type KitDraft = Readonly<{
  fromDb: number | null;
  toDb: number | null;
  stepDb: number | null;
  also: readonly number[];
}>;

/** Plug-ins carry two decimals at most; more are a slip of binary arithmetic. */
const hundredths = (valueDb: number): number => Math.round(valueDb * 100) / 100;
const rising = (values: readonly number[]): number[] => [...new Set(values)].sort((a, b) => a - b);

/** More than any case holds; who types 0 to 20 in steps of 0.001 means something else. */
export const MOST_VALUES = 200;

/** What is said of a kit in one line where it is none, else null. */
export function kitTrouble({ fromDb, toDb, stepDb, also }: KitDraft): string | null {
  const filled = [fromDb, toDb, stepDb].filter((one) => one !== null).length;
  if (filled === 0 && also.length > 0) return null;
  if (fromDb === null || toDb === null || stepDb === null) return 'which values there are';
  if (toDb < fromDb) return 'values that end above where they begin';
  if (stepDb <= 0) return 'steps of more than 0 dB';
  if ((toDb - fromDb) / stepDb > MOST_VALUES) return `at most ${MOST_VALUES} values`;
  return null;
}

/** Every value of a kit without trouble, rising; what does not end on a step ends below it. */
export function valuesOf({ fromDb, toDb, stepDb, also }: KitDraft): readonly number[] {
  const run =
    fromDb === null || toDb === null || stepDb === null
      ? []
      : Array.from({ length: Math.floor((toDb - fromDb) / stepDb + 1e-9) + 1 }, (_, i) =>
          hundredths(fromDb + i * stepDb),
        );
  return rising([...run, ...also]);
}

/** How values that a file lists would be said: the longest run in equal steps from its first value on, and the rest. */
export function kitOf(values: readonly number[]): KitDraft {
  const all = rising(values);
  const [fromDb, second] = all;
  const alone = { fromDb: null, toDb: null, stepDb: null, also: all };
  if (fromDb === undefined || second === undefined) return alone;
  const stepDb = hundredths(second - fromDb);
  let count = 1;
  while (count < all.length && all[count] === hundredths(fromDb + count * stepDb)) count += 1;
  const toDb = all[count - 1];
  // Two values are no run, and values finer than a hundredth are listed as they stand.
  if (count < 3 || toDb === undefined) return alone;
  return { fromDb, toDb, stepDb, also: all.slice(count) };
}
