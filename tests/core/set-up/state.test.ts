import { describe, expect, it } from 'vitest';
import { foundOut, setUpState, stateOfStep } from '../../../core/set-up/state.ts';
import { setUpKinds, stepsOf } from '../../../core/set-up/steps.ts';
import { all, doneWith, redo, skipped } from './lighthouse.ts';

describe.each(setUpKinds)('a set-up (%s)', (kind) => {
  const events = all(kind);

  it('goes from step to step to the end', () => {
    stepsOf(kind).forEach(({ id }, i) => {
      expect(setUpState(kind, events.slice(0, i)).next).toBe(id);
    });
    expect(setUpState(kind, events).next).toBeNull();
  });

  it('is the same after a crash at any place: the events say all', () => {
    for (let i = 0; i <= events.length; i++) {
      const kept = JSON.parse(JSON.stringify(events.slice(0, i)));
      expect(setUpState(kind, kept)).toEqual(setUpState(kind, events.slice(0, i)));
    }
  });

  it('opens again what rests on a step that is done anew, and nothing else', () => {
    const state = setUpState(kind, [...events, redo('max-gain')]);
    expect(state.next).toBe('max-gain');
    const open = state.steps.filter(({ state: at }) => at.at === 'open').map(({ step }) => step.id);
    expect(open).toEqual([
      'max-gain',
      'back-off',
      'range-test',
      'ambient',
      'rebalance',
      'automatic',
      'settle',
      'pilot',
      'sweep-as-left',
    ]);
    expect(stateOfStep(state, 'manual').at).toBe('done');
  });
});

describe('what a step found out', () => {
  it('is there once it is done, not when it was skipped or is open', () => {
    const upTo = all('check').slice(0, 4);
    expect(foundOut(setUpState('check', upTo), 'max-gain', 'maxDbmv')).toBeNull();
    expect(foundOut(setUpState('check', [...upTo, doneWith('max-gain')]), 'max-gain', 'maxDbmv')).toBe(50);
    expect(foundOut(setUpState('check', [...upTo, skipped('max-gain')]), 'max-gain', 'maxDbmv')).toBeNull();
    expect(foundOut(setUpState('check', all('check')), 'sweep-as-found', 'sweepId')).toBeNull();
  });

  it('keeps the reason of a skipped one, and does not mind a step of the other work', () => {
    const state = setUpState('check', [doneWith('exchange'), skipped('sweep-as-found', 'no carriers yet')]);
    expect(stateOfStep(state, 'sweep-as-found')).toEqual({ at: 'skipped', reason: 'no carriers yet' });
    expect(stateOfStep(state, 'exchange')).toEqual({ at: 'open' });
    expect(state.next).toBe('pilot-as-found');
  });
});
