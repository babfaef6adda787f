/** Null where there is nothing to take back, or to bring again. */
export type Undoing = Readonly<{ undo: (() => void) | null; redo: (() => void) | null }>;
/** Where an editor stands: what lies under a dialog does not hear the keys. */
export type EditorAt = 'dialog' | 'page' | 'nowhere';

const isText = (target: EventTarget | null): target is HTMLInputElement | HTMLTextAreaElement =>
  target instanceof HTMLTextAreaElement ||
  (target instanceof HTMLInputElement && !['radio', 'checkbox', 'button'].includes(target.type));

/**
 * Ctrl+Z takes the last change of a draft back, Ctrl+Shift+Z and Ctrl+Y bring it again. Letters that a field has not
 * taken yet are the browser's to take back.
 * @returns  ends it
 */
export function listenForUndo(page: Document, { undo, redo }: Undoing, at: EditorAt): () => void {
  let isTyping = false;
  const typed = () => {
    isTyping = true;
  };
  const taken = () => {
    isTyping = false;
  };
  const pressed = (event: KeyboardEvent) => {
    if (['Enter', 'ArrowUp', 'ArrowDown'].includes(event.key)) taken();
    if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    if (isText(event.target) && isTyping) return;
    if (at === 'nowhere' || (at === 'dialog') !== (page.querySelector('[role="dialog"]') !== null)) return;
    const act = key === 'y' || event.shiftKey ? redo : undo;
    if (act === null) return;
    event.preventDefault();
    act();
  };
  page.addEventListener('input', typed);
  page.addEventListener('focusin', taken);
  page.addEventListener('focusout', taken);
  // Before a field sees the keys: some take Ctrl+Z for themselves.
  page.addEventListener('keydown', pressed, true);
  return () => {
    page.removeEventListener('input', typed);
    page.removeEventListener('focusin', taken);
    page.removeEventListener('focusout', taken);
    page.removeEventListener('keydown', pressed, true);
  };
}
