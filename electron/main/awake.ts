import type { PowerSaveBlocker } from 'electron';
import { z } from 'zod';

/** The backend is gone, and whatever it read with it. */
const Gone = z.object({ type: z.literal('gone') });
/** What comes with readings, and what follows the last of them. */
const News = z.object({
  type: z.literal('event'),
  name: z.enum(['sweep.reading', 'sweep.ended', 'live.reading', 'live.ended', 'watch.round', 'watch.ended']),
});

export type Awake = Readonly<{ saw(frame: unknown): void; rest(): void }>;

/**
 * Keeps the display on while readings come in, and the computer awake while a watch runs that needs nobody; no longer.
 * It can't stop a closed lid or the user's own sleep.
 */
export function stayAwakeDuringSweeps(blocker: Pick<PowerSaveBlocker, 'start' | 'stop'>): Awake {
  const held = new Map<'display' | 'computer', number>();
  const hold = (what: 'display' | 'computer') => {
    const kind = what === 'display' ? 'prevent-display-sleep' : 'prevent-app-suspension';
    if (!held.has(what)) held.set(what, blocker.start(kind));
  };
  const letGo = (what: 'display' | 'computer') => {
    const id = held.get(what);
    if (id !== undefined) blocker.stop(id);
    held.delete(what);
  };
  const letAllGo = () => {
    letGo('display');
    letGo('computer');
  };
  return {
    saw(frame) {
      if (Gone.safeParse(frame).success) return letAllGo();
      const read = News.safeParse(frame);
      if (!read.success) return;
      switch (read.data.name) {
        case 'sweep.reading':
        case 'live.reading':
          hold('display');
          break;
        case 'sweep.ended':
        case 'live.ended':
          letGo('display');
          break;
        case 'watch.round':
          hold('computer');
          break;
        case 'watch.ended':
          letGo('computer');
          break;
      }
    },
    rest: letAllGo,
  };
}
