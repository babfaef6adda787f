import type { CallName, Handlers } from '../../core/bridge/contract.ts';
import { msOf } from './archive/quantities.ts';
import type { Quality } from './services/quality.ts';

type QualityCall = Extract<CallName, `quality.${string}`>;

/** Joins the calls of those who look at all records at once to their service. */
export const joinQuality = (quality: Quality): Pick<Handlers, QualityCall> => ({
  'quality.stations': (input, signal) => quality.stations(input, signal),
  'quality.trends': (input, signal) => quality.trends(input, signal),
  'quality.history': async (input) => quality.history(input),
  'quality.period': async ({ from, to }) => {
    const batch = quality.period(msOf(from), msOf(to));
    return { ...batch, visits: batch.visits.map((visit) => ({ ...visit, changes: [...visit.changes] })) };
  },
});
