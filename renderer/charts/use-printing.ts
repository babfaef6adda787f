import { useSyncExternalStore } from 'react';

const paper = (): MediaQueryList | null =>
  typeof window.matchMedia === 'function' ? window.matchMedia('print') : null;

let begun = false;

function listen(changed: () => void): () => void {
  const media = paper();
  const begin = () => {
    begun = true;
    changed();
  };
  const end = () => {
    begun = false;
    changed();
  };
  window.addEventListener('beforeprint', begin);
  window.addEventListener('afterprint', end);
  media?.addEventListener('change', changed);
  return () => {
    window.removeEventListener('beforeprint', begin);
    window.removeEventListener('afterprint', end);
    media?.removeEventListener('change', changed);
  };
}

/** True while the page is on its way to paper: a drawing keeps the size of the screen unless it is drawn anew. */
export const usePrinting = (): boolean =>
  useSyncExternalStore(listen, () => begun || (paper()?.matches ?? false));
