import { describe, expect, it } from 'vitest';
import { type AttentionFacts, isDue, listsOf } from '../../../core/drift/attention.ts';

const now = Date.UTC(2026, 5, 1);
const good: AttentionFacts = {
  lastVisitMs: Date.UTC(2026, 0, 1),
  openVisit: false,
  verdict: 'pass',
  sweepCount: 3,
  leftAsDesigned: true,
  drift: 'steady',
  outOfService: false,
};
const lists = (over: Partial<AttentionFacts>) => listsOf({ ...good, ...over }, now, 12);

describe('due', () => {
  it('is what was not visited for so many months', () => {
    expect(isDue(Date.UTC(2025, 5, 3), now, 12)).toBe(false);
    expect(isDue(Date.UTC(2025, 4, 29), now, 12)).toBe(true);
    expect(isDue(Date.UTC(2026, 3, 25), now, 1)).toBe(true);
  });
  it('is what was never visited', () => expect(isDue(null, now, 12)).toBe(true));
  it('is not what is being visited', () => {
    expect(lists({ lastVisitMs: 0 })).toEqual(['due']);
    expect(lists({ lastVisitMs: 0, openVisit: true })).toEqual([]);
  });
  it('refuses an interval that is none', () => expect(() => isDue(null, now, 0)).toThrow(RangeError));
});

it('a station in order is on no list', () => expect(lists({})).toEqual([]));
it('each list has its own reason, and a station may be on several', () => {
  expect(lists({ drift: 'drifting' })).toEqual(['drifting']);
  expect(lists({ drift: 'unsure' })).toEqual([]);
  expect(lists({ verdict: 'undecided' })).toEqual(['undecided']);
  expect(lists({ leftAsDesigned: false })).toEqual(['never-left']);
  expect(
    lists({ lastVisitMs: null, verdict: 'undecided', leftAsDesigned: false, drift: 'drifting' }),
  ).toEqual(['due', 'drifting', 'undecided', 'never-left']);
});
it('a station that is out of service is on no list, however it stands', () => {
  expect(lists({ lastVisitMs: null, verdict: 'undecided', drift: 'drifting', outOfService: true })).toEqual(
    [],
  );
});
it('a station that was never swept was not left badly, and one that is not known yet neither', () => {
  expect(lists({ sweepCount: 0, leftAsDesigned: false })).toEqual([]);
  expect(lists({ leftAsDesigned: null })).toEqual([]);
});
