import { useCallback, useMemo, useRef, useState } from 'react';
import type { KeepOrDiscardProps } from './KeepOrDiscard.tsx';
import type { Unsaved, UnsavedKeeper } from './unsaved.ts';

/** What was to be done when the question came up. */
type Asked = Readonly<{ unsaved: Unsaved; go: () => void }>;

/** Holds the edits of a panel or of a screen; the question is there while it waits for its answer. */
export function useUnsavedKeeper(): Readonly<{ keeper: UnsavedKeeper; question: KeepOrDiscardProps | null }> {
  const held = useRef<Unsaved | null>(null);
  const [asked, setAsked] = useState<Asked | null>(null);
  const leave = useCallback((go: () => void) => {
    const unsaved = held.current;
    if (unsaved?.isChanged === true) setAsked({ unsaved, go });
    else go();
  }, []);
  const keeper = useMemo(
    () => ({
      hold: (unsaved: Unsaved | null) => {
        held.current = unsaved;
      },
      leave,
    }),
    [leave],
  );
  if (asked === null) return { keeper, question: null };
  const question = {
    trouble: asked.unsaved.trouble,
    onKeep: async () => {
      const kept = await asked.unsaved.keep();
      setAsked(null);
      if (kept) asked.go();
    },
    onDiscard: () => {
      held.current = null;
      setAsked(null);
      asked.go();
    },
    onGoOn: () => setAsked(null),
  };
  return { keeper, question };
}
