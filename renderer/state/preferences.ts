import { climateOfRecords } from '../../core/files/climate.ts';
import type { State, Store } from './store.ts';
import { textSizes } from './ui-slice.ts';

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

/** The style sheets follow these two marks of the page, and nothing else does. */
function dress(page: HTMLElement, { theme, textSize }: State): void {
  page.dataset.theme = theme;
  page.dataset.text = String(textSize);
}

/** What was kept of the look and the operator; what is none of ours is passed over. */
function recallLook(store: Store, kept: object): void {
  const { themeChosen, textSizeChosen, operatorNamed } = store.getState();
  if ('theme' in kept && (kept.theme === 'sun' || kept.theme === 'night')) themeChosen(kept.theme);
  if ('textSize' in kept) {
    const size = textSizes.find((one) => one === kept.textSize);
    if (size !== undefined) textSizeChosen(size);
  }
  if ('operator' in kept && typeof kept.operator === 'string') operatorNamed(kept.operator);
}

/**
 * How the page looks, who holds the meter, and the weather that the year ahead is computed for; measurements and what they are
 * judged by live in the archive. Until somebody chose a theme, the page is as light or as dark as the system.
 */
export function recallPreferences(
  store: Store,
  box: Pick<Storage, 'getItem'>,
  page: HTMLElement,
  systemIsDark = false,
): void {
  if (systemIsDark) store.getState().themeChosen('night');
  try {
    const kept: unknown = JSON.parse(box.getItem(KEY) ?? '{}');
    if (typeof kept === 'object' && kept !== null) {
      recallLook(store, kept);
      if ('weather' in kept && typeof kept.weather === 'object' && kept.weather !== null)
        recallWeather(store, kept.weather);
    }
  } catch {
    // A browser without storage, or a note of another version: the page looks as on the first day.
  }
  dress(page, store.getState());
}

/** The theme is kept once it was chosen, and not before: a system that turns dark at dusk is followed until then. */
export function keepPreferences(
  store: Store,
  box: Pick<Storage, 'getItem' | 'setItem'>,
  page: HTMLElement,
): () => void {
  let themeWasChosen = keptTheme(box);
  return store.subscribe((state, before) => {
    const { theme, textSize, operator } = state;
    const sameWeather = state.weather === before.weather && state.sunOffsetC === before.sunOffsetC;
    const sameLook = theme === before.theme && textSize === before.textSize;
    if (sameLook && operator === before.operator && sameWeather) return;
    themeWasChosen ||= theme !== before.theme;
    dress(page, state);
    try {
      const look = themeWasChosen ? { theme, textSize } : { textSize };
      box.setItem(KEY, JSON.stringify({ ...look, operator, weather: weatherKept(state) }));
    } catch {
      // Storage that is full or forbidden costs only the memory of it.
    }
  });
}

function keptTheme(box: Pick<Storage, 'getItem'>): boolean {
  try {
    const kept: unknown = JSON.parse(box.getItem(KEY) ?? '{}');
    return typeof kept === 'object' && kept !== null && 'theme' in kept;
  } catch {
    return false;
  }
}
