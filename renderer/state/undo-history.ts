/** A draft with what it was before and what was taken back. Records have none of this: they are voided or corrected. */
export type History<T> = Readonly<{
  past: readonly T[];
  now: T;
  future: readonly T[];
  /** What the last change was about; a further one about the same thing is the same step. Null: a step of its own. */
  about: string | null;
}>;

/** More steps than anybody takes back one by one. */
const MOST_STEPS = 200;

export const begun = <T>(now: T): History<T> => ({ past: [], now, future: [], about: null });

/** The draft with a change. Letters of one name are one step: `about` says what they belong to. */
export function changed<T>(history: History<T>, next: T, about: string | null = null): History<T> {
  if (Object.is(next, history.now)) return history;
  const sameStep = about !== null && about === history.about;
  const past = sameStep ? history.past : [...history.past, history.now].slice(-MOST_STEPS);
  return { past, now: next, future: [], about };
}

export function undone<T>({ past, now, future }: History<T>): History<T> {
  if (past.length === 0) return { past, now, future, about: null };
  // The length says that the last one is there, whatever it is.
  const before = past[past.length - 1] as T;
  return { past: past.slice(0, -1), now: before, future: [now, ...future], about: null };
}

export function redone<T>({ past, now, future }: History<T>): History<T> {
  if (future.length === 0) return { past, now, future, about: null };
  return { past: [...past, now], now: future[0] as T, future: future.slice(1), about: null };
}
