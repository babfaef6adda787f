import type { PowerSaveBlocker } from 'electron';
import { z } from 'zod';

const SweepNews = z.object({ type: z.literal('event'), name: z.enum(['sweep.reading', 'sweep.ended']) });

export type Awake = Readonly<{ saw(frame: unknown): void; rest(): void }>;

/** Keeps the display on while readings come in, and no longer. It can't stop a closed lid or the user's own sleep. */
export function stayAwakeDuringSweeps(blocker: Pick<PowerSaveBlocker, 'start' | 'stop'>): Awake {
  let held: number | null = null;
  const rest = () => {
    if (held !== null) blocker.stop(held);
    held = null;
  };
  return {
    saw(frame) {
      const read = SweepNews.safeParse(frame);
      if (!read.success) return;
      if (read.data.name === 'sweep.ended') rest();
      else held ??= blocker.start('prevent-display-sleep');
    },
    rest,
  };
}
