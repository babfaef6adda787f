import type { SetUpAsked } from '../../../core/set-up/plan.ts';
import type { StepEvent } from '../../../core/set-up/state.ts';
import { type SetUpKind, stepsOf } from '../../../core/set-up/steps.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';

const demo = quillmere.find(({ station }) => station.id === 'qm4-19-lighthouse-rise');
if (demo === undefined) throw new Error('the lighthouse is gone');
export const lighthouse = demo.station;

export const asked = (kind: SetUpKind, ambientC: number | null = -18): SetUpAsked => ({
  kind,
  topMhz: null,
  topCarrierMhz: null,
  pilotMhz: null,
  spanDb: null,
  ambientC,
});

const sweepId = '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90';
/** What each step could have found out. */
export const found: Readonly<Record<string, StepEvent['values']>> = {
  'sweep-as-found': { sweepId },
  'pilot-as-found': { levelDbmv: 44 },
  'input-level': { levelDbmv: 20 },
  'max-gain': { maxDbmv: 50 },
  'back-off': { setDbmv: 46 },
  'range-test': { upDb: 4, downDb: 6.5, returnedDbmv: 46.1 },
  ambient: { ambientC: -18, setDbmv: 44 },
  settle: { levelDbmv: 44 },
  pilot: { pilotMhz: 711, levelDbmv: 44.1 },
  'sweep-as-left': { sweepId },
};
export const doneWith = (step: StepEvent['step'], values = found[step] ?? {}): StepEvent => ({
  step,
  outcome: 'done',
  by: 'reading',
  reason: null,
  values,
});
export const skipped = (step: StepEvent['step'], reason: string | null = 'not wanted'): StepEvent => ({
  step,
  outcome: 'skipped',
  by: 'hand',
  reason,
  values: {},
});
export const redo = (step: StepEvent['step']): StepEvent => ({
  step,
  outcome: 'redo',
  by: 'hand',
  reason: null,
  values: {},
});
/** Every step of the work done, in order. */
export const all = (kind: SetUpKind): StepEvent[] => stepsOf(kind).map(({ id }) => doneWith(id));
