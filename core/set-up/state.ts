import { type SetUpKind, type SetUpStep, type SetUpStepId, stepsOf } from './steps.ts';

/** What a step found out, by name. */
export type StepValues = Readonly<Record<string, number | string>>;

/** One thing that happened to a step. */
export type StepEvent = Readonly<{
  step: SetUpStepId;
  outcome: 'done' | 'skipped' | 'redo';
  by: 'reading' | 'hand';
  reason: string | null;
  values: StepValues;
}>;

export type StepState =
  | Readonly<{ at: 'open' }>
  | Readonly<{ at: 'done'; by: 'reading' | 'hand'; values: StepValues }>
  | Readonly<{ at: 'skipped'; reason: string }>;

export type SetUpState = Readonly<{
  steps: readonly Readonly<{ step: SetUpStep; state: StepState }>[];
  /** The first open one; null when none is left. */
  next: SetUpStepId | null;
}>;

const OPEN: StepState = { at: 'open' };

/** The step itself and all that rest on it, directly or through others. */
function restingOn(steps: readonly SetUpStep[], id: SetUpStepId): ReadonlySet<SetUpStepId> {
  const found = new Set<SetUpStepId>([id]);
  // Steps stand in order and rest on earlier ones only, so one walk is enough.
  for (const step of steps) if (step.restsOn.some((under) => found.has(under))) found.add(step.id);
  return found;
}

function after(event: StepEvent): StepState {
  switch (event.outcome) {
    case 'done':
      return { at: 'done', by: event.by, values: event.values };
    case 'skipped':
      return { at: 'skipped', reason: event.reason ?? '' };
    case 'redo':
      return OPEN;
  }
}

/**
 * How a set-up stands, from what happened in it. The same events always give the same state, so that it goes on after a
 * crash exactly where it was.
 * @param events  in the order in which they happened; an event of a step of the other kind of work changes nothing
 * @returns  every step with its state, and the one that is next
 * @source   common practice, no published source
 */
export function setUpState(kind: SetUpKind, events: readonly StepEvent[]): SetUpState {
  const steps = stepsOf(kind);
  const states = new Map<SetUpStepId, StepState>(steps.map(({ id }) => [id, OPEN]));
  for (const event of events) {
    if (!states.has(event.step)) continue;
    if (event.outcome === 'redo') for (const id of restingOn(steps, event.step)) states.set(id, OPEN);
    else states.set(event.step, after(event));
  }
  const stateOf = (id: SetUpStepId): StepState => states.get(id) ?? OPEN;
  return {
    steps: steps.map((step) => ({ step, state: stateOf(step.id) })),
    next: steps.find(({ id }) => stateOf(id).at === 'open')?.id ?? null,
  };
}

/**
 * The state of one step.
 * @returns  `open` for a step that this kind of work does not have
 * @source   common practice, no published source
 */
export const stateOfStep = (state: SetUpState, id: SetUpStepId): StepState =>
  state.steps.find(({ step }) => step.id === id)?.state ?? OPEN;

/**
 * A number that a step found out.
 * @param name  as in the step's `values`
 * @returns  the number in the unit of its name; null when the step is open, was skipped, or has none of that name
 * @source   common practice, no published source
 */
export function foundOut(state: SetUpState, id: SetUpStepId, name: string): number | null {
  const step = stateOfStep(state, id);
  const value = step.at === 'done' ? step.values[name] : undefined;
  return typeof value === 'number' ? value : null;
}
