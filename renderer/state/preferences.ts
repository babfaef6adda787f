import type { Store } from './store.ts';

const KEY = 'tiltwright-preferences/1';

/** Only how the page looks and who holds the meter; measurements live in the archive and nowhere else. */
export function recallPreferences(store: Store, box: Pick<Storage, 'getItem'>, page: HTMLElement): void {
  try {
    const kept: unknown = JSON.parse(box.getItem(KEY) ?? '{}');
    if (typeof kept === 'object' && kept !== null) {
      if ('theme' in kept && (kept.theme === 'sun' || kept.theme === 'night'))
        store.getState().themeChosen(kept.theme);
      if ('temperatureUnit' in kept && (kept.temperatureUnit === 'C' || kept.temperatureUnit === 'F'))
        store.getState().temperatureUnitChosen(kept.temperatureUnit);
      if ('operator' in kept && typeof kept.operator === 'string')
        store.getState().operatorNamed(kept.operator);
    }
  } catch {
    // A browser without storage, or a note of another version: the page looks as on the first day.
  }
  page.dataset.theme = store.getState().theme;
}

export function keepPreferences(store: Store, box: Pick<Storage, 'setItem'>, page: HTMLElement): () => void {
  return store.subscribe(({ theme, temperatureUnit, operator }, before) => {
    if (theme === before.theme && temperatureUnit === before.temperatureUnit && operator === before.operator)
      return;
    page.dataset.theme = theme;
    try {
      box.setItem(KEY, JSON.stringify({ theme, temperatureUnit, operator }));
    } catch {
      // Storage that is full or forbidden costs only the memory of the theme.
    }
  });
}
