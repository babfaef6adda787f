import { describe, expect, it } from 'vitest';
import { setUpCautions, type setUpKinds, setUpSteps, stepsOf } from '../../../core/set-up/steps.ts';

const idsOf = (kind: (typeof setUpKinds)[number]) => stepsOf(kind).map(({ id }) => id);

// The order of the trade; common practice, no published source.
it('takes a new module through the whole sheet, in order', () => {
  expect(idsOf('new-module')).toEqual([
    'sweep-as-found',
    'control-low',
    'manual',
    'exchange',
    'input-level',
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
});

it('checks a module that is there without taking it out', () => {
  expect(idsOf('check')).toEqual([
    'sweep-as-found',
    'pilot-as-found',
    'manual',
    'input-level',
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
});

describe.each(setUpSteps)('the step $id', (step) => {
  it('says what to do and what to watch, and rests only on steps before it', () => {
    expect(step.title.length).toBeGreaterThan(3);
    expect(step.toDo).toMatch(/[.]$/);
    expect(step.toWatch).toMatch(/[.]$/);
    const before = setUpSteps.slice(0, setUpSteps.indexOf(step)).map(({ id }) => id);
    expect(step.restsOn.filter((id) => !before.includes(id))).toEqual([]);
  });

  it('has a live reading where a reading proves it, and none where a sweep does', () => {
    expect(step.reading === null).toBe(step.proof === 'sweep');
  });
});

it('warns of line power, height, traffic and laser light, and names what rules', () => {
  const words = setUpCautions.join(' ');
  for (const word of ['Line power', 'aloft', 'traffic', 'laser', "operator's own procedure rules"])
    expect(words).toContain(word);
});
