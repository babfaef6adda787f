import { describe, expect, it } from 'vitest';
import { checkedRecord } from '../../../core/files/record-documents.ts';

const id = '6d1c1f2e-5d0e-4c7b-9a53-0f6f3f0d2b11';
const end = { visit: id, note: 'pad 6 to 5', endedAtMs: 1_772_438_400_000, session: id };

describe('a record of a file', () => {
  it('is taken as it is', () => {
    expect(checkedRecord('visit-end', end, 'a.records, line 2')).toEqual({ ok: true, value: end });
  });

  it.each([
    ['a fraction', 'visit-end', { ...end, endedAtMs: 0.5 }, 'endedAtMs'],
    ['a missing key', 'visit-end', { ...end, note: undefined }, 'note'],
    ['no UUID', 'visit-end', { ...end, visit: '7' }, 'visit'],
    ['a key that nothing knows', 'visit-end', { ...end, colour: 'red' }, 'colour'],
    ['a time after the year 9999', 'visit-end', { ...end, endedAtMs: 253_402_300_800_000 }, 'endedAtMs'],
    ['a part that is no number', 'fitting', { from: 'six' }, 'from'],
  ])('is refused with the place of what is wrong: %s', (_what, kind, document, named) => {
    const read = checkedRecord(kind, document, 'a.records, line 2');
    expect(read).toMatchObject({ ok: false, code: 'not-a-record', where: 'a.records, line 2' });
    if (!read.ok) expect(JSON.stringify(read)).toContain(kind === 'fitting' ? ':' : named);
  });

  it('of a kind that this program does not know is refused by name, not by accident', () => {
    for (const kind of ['spectrum', 'toString', '__proto__'])
      expect(checkedRecord(kind, end, 'line 2')).toMatchObject({ ok: false, code: 'unknown-record' });
  });
});
