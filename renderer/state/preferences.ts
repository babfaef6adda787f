import type { Store } from './store.ts';

const KEY = 'tiltwright-preferences/1';

/** Only how the page looks and who holds the meter; measurements and what they are judged by live in the archive. */
export function recallPreferences(store: Store, box: Pick<Storage, 'getItem'>, page: HTMLElement): void {
  try {
    const kept: unknown = JSON.parse(box.getItem(KEY) ?? '{}');
    if (typeof kept === 'object' && kept !== null) {
      if ('theme' in kept && (kept.theme === 'sun' || kept.theme === 'night'))
        store.getState().themeChosen(kept.theme);
      if ('operator' in kept && typeof kept.operator === 'string')
        store.getState().operatorNamed(kept.operator);
    }
  } catch {
    // A browser without storage, or a note of another version: the page looks as on the first day.
  }
  page.dataset.theme = store.getState().theme;
}

export function keepPreferences(store: Store, box: Pick<Storage, 'setItem'>, page: HTMLElement): () => void {
  return store.subscribe(({ theme, operator }, before) => {
    if (theme === before.theme && operator === before.operator) return;
    page.dataset.theme = theme;
    try {
      box.setItem(KEY, JSON.stringify({ theme, operator }));
    } catch {
      // Storage that is full or forbidden costs only the memory of the theme.
    }
  });
}
