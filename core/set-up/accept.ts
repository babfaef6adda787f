import { type Refusal, refuse } from '../result.ts';
import { type SetUpState, type StepEvent, stateOfStep } from './state.ts';
import type { SetUpStep } from './steps.ts';

export type NotAccepted = 'no-such-step' | 'not-next' | 'no-reason' | 'nothing-to-redo' | 'bad-value';

function wrongValue({ title, values }: SetUpStep, given: StepEvent['values']): Refusal<NotAccepted> | null {
  const stranger = Object.keys(given).find((name) => !values.some((value) => value.name === name));
  if (stranger !== undefined)
    return refuse('bad-value', `${title}, "${stranger}"`, 'this step keeps no value of that name');
  for (const { name, kind, required } of values) {
    const value = given[name];
    if (value === undefined) {
      if (required)
        return refuse('bad-value', `${title}, "${name}"`, 'say it, or skip the step with a reason');
      continue;
    }
    const fits =
      kind === 'number'
        ? typeof value === 'number' && Number.isFinite(value) && Math.abs(value) <= 3000
        : typeof value === 'string' && value !== '';
    if (!fits) return refuse('bad-value', `${title}, "${name}"`, `give it as a ${kind}`);
  }
  return null;
}

/**
 * May this happen to a set-up that stands so?
 * @param state  how it stands
 * @param event  what is to be recorded
 * @returns  null, or a refusal: a step of the other kind of work; one that is not next; a skip without a reason; a redo of
 *           a step that is open; a value that is missing, unknown, or no number
 * @source   common practice, no published source
 */
export function refusedEvent(state: SetUpState, event: StepEvent): Refusal<NotAccepted> | null {
  const found = state.steps.find(({ step }) => step.id === event.step);
  if (found === undefined)
    return refuse('no-such-step', `step "${event.step}"`, 'this kind of work does not have it');
  const { step } = found;
  if (event.outcome === 'redo')
    return stateOfStep(state, step.id).at === 'open'
      ? refuse('nothing-to-redo', step.title, 'this step is open: just do it')
      : null;
  if (state.next !== step.id) {
    const next = state.steps.find((one) => one.step.id === state.next)?.step.title;
    return refuse(
      'not-next',
      step.title,
      next === undefined ? 'every step is over; do this one again to change it' : `"${next}" comes first`,
    );
  }
  if (event.outcome === 'skipped')
    return event.reason === null || event.reason.trim() === ''
      ? refuse('no-reason', step.title, 'say why it is skipped; it stands in the record')
      : null;
  return wrongValue(step, event.values);
}
