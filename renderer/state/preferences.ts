import { climateOfRecords } from '../../core/files/climate.ts';
import type { State, Store } from './store.ts';

const KEY = 'tiltwright-preferences/1';
/** More than the sun has ever added to a cable: not kept by this program. */
const MOST_SUN_C = 60;

/**
 * What is kept of the weather: the two records and what the sun adds, once somebody said one of them. The days of a file are
 * not: after a reload its coldest and hottest stand as two numbers.
 */
const weatherKept = ({ weather, sunOffsetC }: State) => ({
  ...(weather.isAssumed ? {} : { coldestC: weather.climate.coldestC, hottestC: weather.climate.hottestC }),
  sunOffsetC,
});

/** What stands in the storage may be anything: only weather that core takes as such comes back. */
function recallWeather(store: Store, kept: object): void {
  if (
    'coldestC' in kept &&
    typeof kept.coldestC === 'number' &&
    'hottestC' in kept &&
    typeof kept.hottestC === 'number'
  ) {
    const climate = climateOfRecords(kept.coldestC, kept.hottestC);
    if (climate.ok) store.getState().weatherSaid(climate.value, null);
  }
  if (
    'sunOffsetC' in kept &&
    typeof kept.sunOffsetC === 'number' &&
    kept.sunOffsetC >= 0 &&
    kept.sunOffsetC <= MOST_SUN_C
  )
    store.getState().sunSaid(kept.sunOffsetC);
}

/**
 * How the page looks, who holds the meter, and the weather that the year ahead is computed for; measurements and what they are
 * judged by live in the archive.
 */
export function recallPreferences(store: Store, box: Pick<Storage, 'getItem'>, page: HTMLElement): void {
  try {
    const kept: unknown = JSON.parse(box.getItem(KEY) ?? '{}');
    if (typeof kept === 'object' && kept !== null) {
      if ('theme' in kept && (kept.theme === 'sun' || kept.theme === 'night'))
        store.getState().themeChosen(kept.theme);
      if ('operator' in kept && typeof kept.operator === 'string')
        store.getState().operatorNamed(kept.operator);
      if ('weather' in kept && typeof kept.weather === 'object' && kept.weather !== null)
        recallWeather(store, kept.weather);
    }
  } catch {
    // A browser without storage, or a note of another version: the page looks as on the first day.
  }
  page.dataset.theme = store.getState().theme;
}

export function keepPreferences(store: Store, box: Pick<Storage, 'setItem'>, page: HTMLElement): () => void {
  return store.subscribe((state, before) => {
    const { theme, operator } = state;
    const sameWeather = state.weather === before.weather && state.sunOffsetC === before.sunOffsetC;
    if (theme === before.theme && operator === before.operator && sameWeather) return;
    page.dataset.theme = theme;
    try {
      box.setItem(KEY, JSON.stringify({ theme, operator, weather: weatherKept(state) }));
    } catch {
      // Storage that is full or forbidden costs only the memory of it.
    }
  });
}
