import type { StateCreator } from 'zustand/vanilla';
import type { EventData } from '../../core/bridge/contract.ts';
import type { Purpose } from '../../core/bridge/records.ts';

export type RunPlan = Readonly<{
  stationId: string;
  portName: string;
  purpose: Purpose;
  plannedCount: number;
  lowMhz: number;
  highMhz: number;
  /** So many readings make one level; not told of a sweep that another page began. */
  repeats?: Repeats;
}>;

/** How often each channel may be read: the noise of a mean falls with the root of it, so that each step halves it. */
export const repeatChoices = [1, 4, 16] as const;
export type Repeats = (typeof repeatChoices)[number];

/** Why a running sweep stands still: by hand, or because its meter is gone and looked for. */
export type Hold = Readonly<{ by: 'nothing' } | { by: 'hand' } | { by: 'link'; why: string }>;
const MOVING: Hold = { by: 'nothing' };

/** The sweep in hand. Its readings are not here: they go past the store (state/live-feed.ts). */
export type Run =
  | Readonly<{ at: 'idle' }>
  | Readonly<{ at: 'starting'; plan: RunPlan }>
  | Readonly<{ at: 'running'; plan: RunPlan; sweepId: string; hold: Hold }>
  | Readonly<{ at: 'stopping'; plan: RunPlan; sweepId: string }>
  | Readonly<{ at: 'cut-short'; plan: RunPlan; sweepId: string; readingCount: number; reason: string }>;

export type RunSlice = {
  run: Run;
  repeats: Repeats;
  repeatsChosen(repeats: Repeats): void;
  runStarting(plan: RunPlan): void;
  runStarted(sweepId: string): void;
  /** A sweep that was already running when this page came. */
  runFound(plan: RunPlan, sweepId: string): void;
  runStopping(): void;
  runHeld(hold: Hold): void;
  runEnded(ended: EventData<'sweep.ended'>): void;
  runForgotten(): void;
};

export const createRunSlice: StateCreator<RunSlice> = (set) => ({
  run: { at: 'idle' },
  repeats: 1,
  repeatsChosen: (repeats) => set({ repeats }),
  runStarting: (plan) => set({ run: { at: 'starting', plan } }),
  runStarted: (sweepId) =>
    set(({ run }) =>
      run.at === 'starting' ? { run: { at: 'running', plan: run.plan, sweepId, hold: MOVING } } : {},
    ),
  runFound: (plan, sweepId) =>
    set(({ run }) =>
      run.at === 'idle' || run.at === 'cut-short'
        ? { run: { at: 'running', plan, sweepId, hold: MOVING } }
        : {},
    ),
  runStopping: () =>
    set(({ run }) =>
      run.at === 'running' ? { run: { at: 'stopping', plan: run.plan, sweepId: run.sweepId } } : {},
    ),
  runHeld: (hold) => set(({ run }) => (run.at === 'running' ? { run: { ...run, hold } } : {})),
  runEnded: ({ sweepId, state, readingCount, reason }) =>
    set(({ run }) => {
      if ((run.at !== 'running' && run.at !== 'stopping') || run.sweepId !== sweepId) return {};
      if (state === 'complete') return { run: { at: 'idle' } };
      return {
        run: { at: 'cut-short', plan: run.plan, sweepId, readingCount, reason: reason ?? 'it was stopped' },
      };
    }),
  runForgotten: () => set({ run: { at: 'idle' } }),
});
