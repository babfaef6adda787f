import { useEffect, useState } from 'react';
import { begun, changed, type History, redone, undone } from './undo-history.ts';
import { type EditorAt, listenForUndo } from './undo-keys.ts';

export type Drafting<T> = Readonly<{
  draft: T;
  /** A change; further ones about the same thing are taken back together. */
  say: (next: T, about?: string) => void;
  /** Another draft, with nothing before it. */
  beginAnew: (first: T) => void;
  undo: (() => void) | null;
  redo: (() => void) | null;
}>;

/** A draft whose changes can be taken back, by button and by Ctrl+Z, as long as its editor is open. */
export function useUndo<T>(first: T | (() => T), at: EditorAt = 'dialog'): Drafting<T> {
  const [history, setHistory] = useState<History<T>>(() =>
    begun(first instanceof Function ? first() : first),
  );
  const hasPast = history.past.length > 0;
  const hasFuture = history.future.length > 0;
  useEffect(
    () =>
      listenForUndo(
        document,
        {
          undo: hasPast ? () => setHistory(undone) : null,
          redo: hasFuture ? () => setHistory(redone) : null,
        },
        at,
      ),
    [hasPast, hasFuture, at],
  );
  return {
    draft: history.now,
    say: (next, about) => setHistory((was) => changed(was, next, about ?? null)),
    beginAnew: (anew) => setHistory(begun(anew)),
    undo: hasPast ? () => setHistory(undone) : null,
    redo: hasFuture ? () => setHistory(redone) : null,
  };
}
