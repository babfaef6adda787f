import type { Store } from './store.ts';
import { tourIsOver } from './tour-steps.ts';

const KEY = 'tiltwright-first-steps/1';

/** Whether the first steps were put away, from the last time; a browser without storage begins anew. */
export function recallTour(store: Store, box: Pick<Storage, 'getItem'>): void {
  try {
    const kept = box.getItem(KEY);
    if (kept === 'on' || kept === 'put-away') store.getState().tourBecame(kept);
  } catch {
    // Nothing is known of an earlier time, as on the first day.
  }
}

/** Keeps what became of the first steps, and puts them away by themselves once the work is proved. */
export const keepTour = (store: Store, box: Pick<Storage, 'setItem'>): (() => void) =>
  store.subscribe((now, before) => {
    if (now.tour === 'on' && now.sheet !== before.sheet && tourIsOver(now)) now.tourBecame('put-away');
    const { tour } = store.getState();
    if (tour === before.tour) return;
    try {
      box.setItem(KEY, tour);
    } catch {
      // Storage that is full or forbidden costs only the memory of it.
    }
  });
