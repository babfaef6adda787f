import { describe, expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { setUpResult } from '../../../core/set-up/result.ts';
import { type StepEvent, setUpState } from '../../../core/set-up/state.ts';
import type { Conditions } from '../../../core/uncertainty/budget.ts';
import { all, asked, lighthouse, skipped } from './lighthouse.ts';

const meter = { meter: MeterUncertainty.parse({}), ambientC: null };
const resultOf = (events: readonly StepEvent[], conditions: Conditions | null = null) => {
  const plan = setUpPlan(lighthouse, asked('new-module'));
  if (!plan.ok) throw new Error(plan.help);
  return setUpResult(plan.value, setUpState('new-module', events), conditions);
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

  it('judges the reserve with the compensation that the level was set by', () => {
    // 50 less 44 dBmV; the rule asks for 4 dB at 870 MHz and 2 more in the cold of -18 degrees C.
    const { reserve: judged, reserveAskedThenDb } = resultOf(all('new-module'), meter);
    expect(reserveAskedThenDb).toBe(6);
    expect(judged).toMatchObject({ verdict: 'pass', measuredDb: 6, askedDb: 6, side: 'even' });
    expect(judged?.probability).toBeGreaterThan(0.99);
  });

  it('judges it without where that step was skipped, and not at all without a meter', () => {
    const events = all('new-module').map((event) => (event.step === 'ambient' ? skipped('ambient') : event));
    expect(resultOf(events, meter).reserve).toMatchObject({ verdict: 'pass', measuredDb: 4, askedDb: 4 });
    expect(resultOf(events).reserveAskedThenDb).toBe(4);
    expect(resultOf(events).reserve).toBeNull();
    expect(resultOf(all('new-module').slice(0, 3), meter).reserve).toBeNull();
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
