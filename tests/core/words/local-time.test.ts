import { expect, it } from 'vitest';
import { dayWords, localTime, momentWords } from '../../../core/words/local-time.ts';

const berlin = { timeZone: 'Europe/Berlin', utcOffsetMin: 0 };

// In 2026 summer time in Central Europe begins on 29 March at 01:00 UTC (Directive 2000/84/EC: last Sunday of March).
it('follows the zone over the change to summer time', () => {
  expect(localTime('2026-03-29T00:59:00.000Z', berlin)).toEqual({
    day: '2026-03-29',
    clock: '01:59',
    offset: '+01:00',
  });
  expect(localTime('2026-03-29T01:00:00.000Z', berlin)).toEqual({
    day: '2026-03-29',
    clock: '03:00',
    offset: '+02:00',
  });
});

it('knows zones that are not whole hours away, and those west of Greenwich', () => {
  expect(localTime('2026-01-01T00:00:00.000Z', { timeZone: 'Asia/Kathmandu', utcOffsetMin: 0 })).toEqual({
    day: '2026-01-01',
    clock: '05:45',
    offset: '+05:45',
  });
  expect(localTime('2026-01-01T00:00:00.000Z', { timeZone: 'America/St_Johns', utcOffsetMin: 0 })).toEqual({
    day: '2025-12-31',
    clock: '20:30',
    offset: '\u221203:30',
  });
  expect(localTime('2026-01-01T00:00:00.000Z', { timeZone: 'UTC', utcOffsetMin: 300 }).offset).toBe('+00:00');
});

it('takes the recorded offset where the zone is not known here', () => {
  const place = { timeZone: 'Quillmere/Harbour', utcOffsetMin: -90 };
  expect(localTime('2026-01-01T01:00:00.000Z', place)).toMatchObject({
    clock: '23:30',
    offset: '\u221201:30',
  });
});

it('says a moment in words, and refuses what is none', () => {
  expect(dayWords('2026-03-02')).toBe('2\u00A0March 2026');
  expect(momentWords('2026-07-02T10:00:00.000Z', berlin)).toBe('2\u00A0July 2026, 12:00\u00A0+02:00');
  expect(() => localTime('yesterday', berlin)).toThrow(RangeError);
});
