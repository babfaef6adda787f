import { describe, expect, it } from 'vitest';
import { gainControlAsSet } from '../../../core/set-up/as-set.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { type StepEvent, setUpState } from '../../../core/set-up/state.ts';
import { all, asked, lighthouse, skipped } from './lighthouse.ts';

const planOf = (topCarrierMhz = 870, ambientC: number | null = -18) => {
  const plan = setUpPlan(lighthouse, { ...asked('new-module', ambientC), topCarrierMhz });
  if (!plan.ok) throw new Error(plan.help);
  return plan.value;
};
const stateOf = (events: readonly StepEvent[]) => setUpState('new-module', events);
const without = (step: StepEvent['step']) =>
  all('new-module').map((event) => (event.step === step ? skipped(step) : event));

describe('the gain control as a set-up left it', () => {
  it('reaches up to the maximum, and down by the rest of its range, from the day it was set', () => {
    // 50 dBmV at most, set at 44; the test found 4 and 6.5 dB: 6 up, and 10.5 less 6 down.
    expect(gainControlAsSet(lighthouse, planOf(), stateOf(all('new-module')))).toEqual({
      mode: 'auto',
      upDb: 6,
      downDb: 4.5,
      topMhz: 870,
      setAtC: -18,
      pilotMhz: 711,
    });
  });

  it('is said at the top frequency, where a control moves a little more than at the carrier below it', () => {
    const found = gainControlAsSet(lighthouse, planOf(600), stateOf(all('new-module')));
    expect(found?.upDb).toBeCloseTo(6 * Math.sqrt(870 / 600), 9);
  });

  it('takes the way down from the station where no range test was made', () => {
    expect(gainControlAsSet(lighthouse, planOf(), stateOf(without('range-test')))).toMatchObject({
      upDb: 6,
      downDb: lighthouse.gainControl?.downDb,
    });
    expect(gainControlAsSet({}, planOf(), stateOf(without('range-test')))).toBeNull();
  });

  it('counts from the backed-off level where the day was not compensated', () => {
    expect(gainControlAsSet(lighthouse, planOf(), stateOf(without('ambient')))).toMatchObject({
      upDb: 4,
      downDb: 6.5,
      setAtC: -18,
    });
  });

  it('is not known before it was measured', () => {
    expect(gainControlAsSet(lighthouse, planOf(), stateOf(all('new-module').slice(0, 6)))).toBeNull();
    expect(gainControlAsSet(lighthouse, planOf(), stateOf(without('max-gain')))).toBeNull();
    expect(gainControlAsSet(lighthouse, planOf(870, null), stateOf(without('ambient')))).toBeNull();
  });
});
