import { expect, it } from 'vitest';
import { MeterUncertainty } from '../../../core/files/meter-uncertainty.ts';
import { setUpSection } from '../../../core/report/set-up-section.ts';
import { setUpPlan } from '../../../core/set-up/plan.ts';
import { PLACE, reportFrame } from '../../support/reported-visit.ts';
import { all, asked, lighthouse, skipped } from '../set-up/lighthouse.ts';

const plan = setUpPlan(lighthouse, asked('new-module'));
if (!plan.ok) throw new Error(plan.help);
const section = (events: ReturnType<typeof all>) =>
  JSON.stringify(
    setUpSection(
      {
        startedAt: '2026-03-02T09:05:00.000Z',
        plan: plan.value,
        abandoned: null,
        conditions: { meter: MeterUncertainty.parse({}), ambientC: null },
        events: events.map((event) => ({ ...event, at: '2026-03-02T09:30:00.000Z' })),
      },
      PLACE,
      reportFrame(),
    ),
  );

it('has every step with its outcome, the reserve and the range', () => {
  const text = section(all('new-module'));
  expect(text).toContain('Find the maximum gain');
  expect(text).toContain('09:30');
  // 50 less 44 dBmV are left of 6 that the rule asks for on that day.
  expect(text).toContain('Reserve 6.0');
  expect(text).toContain('of 6.0: good');
  expect(text).toContain('Range in order');
  expect(text).toContain('no published source');
});

it('says what was skipped and why', () => {
  const text = section(
    all('new-module').map((event) => (event.step === 'ambient' ? skipped('ambient') : event)),
  );
  expect(text).toContain('skipped: ');
});
