import { useSyncExternalStore } from 'react';
import type { LiveInks } from './live-drawing.ts';

/** What the system asks for may change while the page is open, as the theme may. */
const asked =
  typeof window.matchMedia === 'function'
    ? ['(prefers-contrast: more)', '(forced-colors: active)'].map((query) => window.matchMedia(query))
    : [];

const dress = (): string =>
  [document.documentElement.dataset.theme ?? '', ...asked.map(({ matches }) => matches)].join(' ');

function onDress(tell: () => void): () => void {
  const observer = new MutationObserver(tell);
  observer.observe(document.documentElement, { attributeFilter: ['data-theme'] });
  for (const query of asked) query.addEventListener('change', tell);
  return () => {
    observer.disconnect();
    for (const query of asked) query.removeEventListener('change', tell);
  };
}

/** How the page is dressed, as a word that is another one whenever a canvas must take its inks anew: no style sheet reaches it. */
export const useDress = (): string => useSyncExternalStore(onDress, dress);

/** The inks of the page, where this element stands. */
export const inksOf = (element: HTMLElement): LiveInks => {
  const style = getComputedStyle(element);
  const ink = (name: string) => style.getPropertyValue(name).trim();
  return {
    ink: ink('--ink'),
    soft: ink('--soft'),
    hair: ink('--hair'),
    edge: ink('--edge'),
    band: ink('--band'),
    trace: ink('--found'),
    font: style.fontFamily,
  };
};
