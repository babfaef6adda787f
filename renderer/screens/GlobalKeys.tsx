import { useEffect } from 'react';
import { useBench } from '../state/use-workbench.ts';

/** Where letters are typed, a letter is a letter. */
const isTypedInto = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    target.matches('input:not([type="radio"], [type="checkbox"], [type="button"]), textarea, select'));

/** The keys that hold on every screen: search, help, and taking back what was just kept. */
export function GlobalKeys() {
  const { store } = useBench();
  useEffect(() => {
    const pressed = (event: KeyboardEvent) => {
      const state = store.getState();
      const withControl = (event.ctrlKey || event.metaKey) && !event.altKey;
      const free = !withControl && !event.altKey && !isTypedInto(event.target);
      const nothingOver = state.dialog.open === 'none' && state.help.at === 'closed';
      const take = (act: () => void) => {
        event.preventDefault();
        act();
      };
      if (withControl && !event.shiftKey && event.key.toLowerCase() === 'k') {
        if (nothingOver && !state.searchIsOpen) take(state.searchOpened);
        else event.preventDefault();
      } else if (free && event.key === '/' && nothingOver && !state.searchIsOpen) take(state.searchOpened);
      else if (free && event.key === '?' && state.help.at === 'closed' && !state.searchIsOpen)
        take(() => state.helpOpened('terms'));
      else if (withControl && !event.shiftKey && event.key.toLowerCase() === 'z') {
        const undo = state.notice?.undo;
        if (undo !== undefined && nothingOver && !event.defaultPrevented && !isTypedInto(event.target))
          take(undo.go);
      }
    };
    document.addEventListener('keydown', pressed);
    return () => document.removeEventListener('keydown', pressed);
  }, [store]);
  return null;
}
