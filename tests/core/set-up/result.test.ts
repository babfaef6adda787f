import { describe, expect, it } from 'vitest';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { setUpResult } from '../../../core/set-up/result.ts';
import { type StepEvent, setUpState } from '../../../core/set-up/state.ts';
import { all, asked, lighthouse, skipped } from './lighthouse.ts';

const resultOf = (events: readonly StepEvent[]) => {
  const plan = setUpPlan(lighthouse, asked('new-module'));
  if (!plan.ok) throw new Error(plan.help);
  return setUpResult(plan.value, setUpState('new-module', events));
};

describe('what a set-up came to', () => {
  it('is done, with its reserve and its range test', () => {
    const result = resultOf(all('new-module'));
    expect(result).toMatchObject({
      verdict: 'done',
      reserveLeftDb: 6,
      reserveAskedDb: 4,
      range: { verdict: 'pass', totalDb: 10.5 },
      skipped: [],
    });
    expect(result.words).toContain('6.0 dB of reserve are left');
  });

  it('names what was skipped, and why', () => {
    const events = all('new-module').map((event) =>
      event.step === 'range-test' ? skipped('range-test', 'rain') : event,
    );
    expect(resultOf(events)).toMatchObject({
      verdict: 'done-with-gaps',
      range: null,
      skipped: [{ title: 'Range test, when wanted', reason: 'rain' }],
    });
  });

  it('is open while a step is, and knows no reserve that was not measured', () => {
    const result = resultOf(all('new-module').slice(0, 3));
    expect(result).toMatchObject({ verdict: 'open', reserveLeftDb: null });
    expect(result.words).toContain('11 steps are open; the reserve was not measured');
  });
});
