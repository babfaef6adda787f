import { expect, it } from 'vitest';
import { likelyPlan } from '../../../core/channels/likely-plan.ts';
import { channelsOf, PLAN_NAMES } from '../../../core/channels/plans.ts';

// Common practice, no published source; the plans themselves are tested against the tables.
it('knows each plan by its own carriers', () => {
  for (const plan of PLAN_NAMES.filter((name) => name !== 'europe-digital')) {
    const carriers = channelsOf(plan).flatMap(({ visualMhz }) => (visualMhz === null ? [] : [visualMhz]));
    expect(likelyPlan(carriers)).toMatchObject({
      ok: true,
      value: { plan, matchedCount: carriers.length, ofCount: carriers.length, equallyLikely: [] },
    });
  }
});

it('says that digital centres alone leave STD and IRC undecided', () => {
  const centers = channelsOf('std')
    .slice(30, 90)
    .map(({ centerMhz }) => centerMhz);
  expect(likelyPlan(centers)).toMatchObject({ value: { plan: 'std', equallyLikely: ['irc'] } });
});

it('counts what stands on no plan and passes over what is no frequency', () => {
  expect(likelyPlan([55.25, 61.25, 67.25, 1.5, Number.NaN])).toMatchObject({
    value: { plan: 'std', matchedCount: 3, ofCount: 5 },
  });
  expect(likelyPlan([1.5, Number.NaN])).toMatchObject({ ok: false, code: 'no-plan-fits' });
  expect(likelyPlan([])).toMatchObject({ ok: false });
});
