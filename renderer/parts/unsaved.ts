import { createContext, useContext, useEffect } from 'react';

/** Edits that nothing has kept yet. */
export type Unsaved = Readonly<{
  isChanged: boolean;
  /** Why they can't be kept as they stand, in one line; null when they can. */
  trouble: string | null;
  /** True when they are kept; what went wrong is said by the notice. */
  keep: () => Promise<boolean>;
}>;

/** Who holds the edits of a panel, and asks about them before they are gone. */
export type UnsavedKeeper = Readonly<{
  hold: (unsaved: Unsaved | null) => void;
  /** Does it at once where nothing is unsaved; else asks first. */
  leave: (go: () => void) => void;
}>;

export const UnsavedContext = createContext<UnsavedKeeper>({
  hold: () => undefined,
  leave: (go) => go(),
});

/** An editor inside a panel says what is unsaved; nobody closes the panel or turns to another face without being asked. */
export function useUnsaved(unsaved: Unsaved): void {
  const { hold } = useContext(UnsavedContext);
  useEffect(() => {
    hold(unsaved);
    return () => hold(null);
  });
}

/** For what would throw edits away: another face of the same panel, another meter's numbers. */
export const useLeave = (): UnsavedKeeper['leave'] => useContext(UnsavedContext).leave;
