import { describe, expect, it } from 'vitest';
import { refusedEvent } from '../../../core/set-up/accept.ts';
import { type StepEvent, setUpState } from '../../../core/set-up/state.ts';
import { all, doneWith, redo, skipped } from './lighthouse.ts';

const after = (events: readonly StepEvent[]) => setUpState('check', events);
const codeOf = (events: readonly StepEvent[], event: StepEvent) =>
  refusedEvent(after(events), event)?.code ?? null;

describe('an event of a set-up', () => {
  it('is taken for the step that is next, all the way', () => {
    const events = all('check');
    events.forEach((event, i) => {
      expect(codeOf(events.slice(0, i), event)).toBeNull();
      expect(codeOf(events.slice(0, i), skipped(event.step))).toBeNull();
    });
  });

  it('is refused out of turn, naming what comes first', () => {
    expect(refusedEvent(after([]), doneWith('manual'))).toMatchObject({
      code: 'not-next',
      help: '"Sweep as found" comes first',
    });
    expect(codeOf(all('check'), doneWith('manual'))).toBe('not-next');
  });

  it('is refused for a step that this work does not have', () => {
    expect(codeOf([], doneWith('exchange'))).toBe('no-such-step');
  });

  it('has a reason when the step is skipped', () => {
    expect(codeOf([], skipped('sweep-as-found', null))).toBe('no-reason');
    expect(codeOf([], skipped('sweep-as-found', '  '))).toBe('no-reason');
  });

  it('does a step again only when it is over', () => {
    expect(codeOf([], redo('sweep-as-found'))).toBe('nothing-to-redo');
    expect(codeOf([doneWith('sweep-as-found')], redo('sweep-as-found'))).toBeNull();
  });

  it.each([
    [{}],
    [{ maxDbmv: 'much' }],
    [{ maxDbmv: Number.NaN }],
    [{ maxDbmv: Number.POSITIVE_INFINITY }],
    [{ maxDbmv: 50, colour: 'red' }],
  ])('carries the values of its step: not %j', (values) => {
    const before = all('check').slice(0, 4);
    expect(codeOf(before, doneWith('max-gain', values))).toBe('bad-value');
    expect(codeOf(before, doneWith('max-gain', { maxDbmv: 50 }))).toBeNull();
  });
});
