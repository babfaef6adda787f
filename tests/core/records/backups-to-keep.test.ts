import fc from 'fast-check';
import { expect, it } from 'vitest';
import { backupsToKeep, KEPT } from '../../../core/records/backups-to-keep.ts';

const at = (moment: string) => Date.parse(moment);
const named = (kept: readonly number[]) => kept.map((ms) => new Date(ms).toISOString().slice(0, 10));

// Worked by hand with the calendar of 2026: 30 March and 2 March are Mondays, 29 March is a Sunday.
it('keeps seven days, the newest of five weeks, the first of each month', () => {
  const daily = Array.from({ length: 90 }, (_, i) => at('2026-03-31T09:00:00Z') - i * 86_400_000);
  expect(named(backupsToKeep(daily, 0))).toEqual([
    '2026-03-31',
    '2026-03-30',
    '2026-03-29',
    '2026-03-28',
    '2026-03-27',
    '2026-03-26',
    '2026-03-25',
    '2026-03-22',
    '2026-03-15',
    '2026-03-08',
    '2026-03-01',
    '2026-02-01',
    '2026-01-01',
  ]);
});

it('counts days on which something was made, so that a summer away throws nothing out', () => {
  const rare = ['2026-01-05T08:00:00Z', '2026-04-09T08:00:00Z', '2026-08-01T08:00:00Z'].map(at);
  expect(backupsToKeep(rare, 0)).toHaveLength(3);
});

it('of one day keeps the newest, the day being that of the wall clock', () => {
  const made = ['2026-05-06T22:30:00Z', '2026-05-06T23:30:00Z', '2026-05-07T01:00:00Z'].map(at);
  const first = at('2026-05-01T08:00:00Z');
  expect(backupsToKeep([first, ...made], 60)).toEqual([made[2], made[0], first]);
});

it('keeps the newest in any case, never more than there is room for, and settles', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 4e12 }), { maxLength: 60 }),
      fc.integer({ min: -720, max: 840 }),
      (made, offset) => {
        const kept = backupsToKeep(made, offset);
        if (made.length > 0) expect(kept[0]).toBe(Math.max(...made));
        expect(kept.length).toBeLessThanOrEqual(KEPT.days + KEPT.weeks + KEPT.months);
        expect(backupsToKeep(kept, offset)).toEqual(kept);
      },
    ),
  );
});
