import fc from 'fast-check';
import { expect, it } from 'vitest';
import { saidDays } from '../../../core/words/said-days.ts';

const today = '2026-11-25';
const one = (day: string, next: string) => ({ fromDay: day, beforeDay: next });

it.each([
  ['2026-11-24', one('2026-11-24', '2026-11-25'), []],
  ['2026-2', one('2026-02-01', '2026-03-01'), []],
  ['24.11.2025', one('2025-11-24', '2025-11-25'), []],
  ['31.12.', one('2026-12-31', '2027-01-01'), []],
  ['28 February 2024', one('2024-02-28', '2024-02-29'), []],
  ['29 feb 2024', one('2024-02-29', '2024-03-01'), []],
  ['March 14', one('2026-03-14', '2026-03-15'), []],
  ['mill lane Dec 2025', one('2025-12-01', '2026-01-01'), ['mill', 'lane']],
  ['2024 Okafor', one('2024-01-01', '2025-01-01'), ['okafor']],
  ['today', one('2026-11-25', '2026-11-26'), []],
  ['wet, yesterday', one('2026-11-24', '2026-11-25'), ['wet']],
])('reads %s as days', (text, days, rest) => {
  expect(saidDays(text, today)).toEqual({ days, rest });
});

it.each(['31.4.2026', '2026-13', 'June', '07 Mill Lane', '3/4/2026', 'may', ''])(
  'takes %s for no day',
  (text) => {
    expect(saidDays(text, today).days).toBeNull();
  },
);

// The calendar of the language itself is the outside truth: whatever day it has is read back as that day and the next.
it('reads every day of the calendar in three spellings', () => {
  const names = new Intl.DateTimeFormat('en-GB', { month: 'long', timeZone: 'UTC' });
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 36_500 }), (n) => {
      const at = new Date(Date.UTC(1970, 0, 1) + n * 86_400_000);
      const iso = at.toISOString().slice(0, 10);
      const next = new Date(at.getTime() + 86_400_000).toISOString().slice(0, 10);
      const [y, m, d] = iso.split('-').map(Number);
      for (const text of [iso, `${d}.${m}.${y}`, `${d} ${names.format(at)} ${y}`])
        expect(saidDays(text, today).days).toEqual({ fromDay: iso, beforeDay: next });
    }),
    { numRuns: 200 },
  );
});
