import { describe, expect, it } from 'vitest';
import { readRecordsLine, recordsText } from '../../../core/files/records-file.ts';

const hash = '0'.repeat(64);
const device = '6d1c1f2e-5d0e-4c7b-9a53-0f6f3f0d2b11';
const header = {
  format: 'tiltwright-records/1',
  ...{ device, madeAtMs: 1, program: '1', what: { kind: 'everything' as const }, head: { seq: 0, hash } },
} as const;
const record = {
  device,
  seq: 1,
  previous: hash,
  hash,
  kind: 'visit',
  id: device,
  document: { visitId: device },
};

describe('a line of a file of records', () => {
  it('reads back as what it was', () => {
    const end = { end: true, records: 1, sha256: hash } as const;
    const read = (text: string, place: number) => readRecordsLine(text.slice(0, -1), place, 'a.records.gz');
    expect(read(recordsText(header), 1)).toMatchObject({ ok: true, value: { is: 'header', header } });
    expect(read(recordsText(record), 2)).toMatchObject({ ok: true, value: { is: 'record', record } });
    expect(read(recordsText(end), 3)).toMatchObject({ ok: true, value: { is: 'end', end } });
    expect(recordsText(end)).toBe(`{"end":true,"records":1,"sha256":"${hash}"}\n`);
  });

  it.each([
    ['something else', 'frequency_mhz,level_dbmv', 1, 'not-records'],
    ['another file of ours', '{"format":"tiltwright-station/1"}', 1, 'not-records'],
    ['a later form', JSON.stringify({ ...header, format: 'tiltwright-records/2' }), 1, 'newer-records'],
    ['a header without its head', JSON.stringify({ ...header, head: undefined }), 1, 'bad-line'],
    ['half a line', '{"device":', 2, 'bad-line'],
    ['a list for a record', JSON.stringify({ ...record, document: [] }), 2, 'bad-line'],
    ['a key that nothing knows', JSON.stringify({ ...record, colour: 'red' }), 2, 'bad-line'],
  ])('is refused as %s', (_, text, place, code) => {
    const read = readRecordsLine(text, place, 'a.records.gz');
    expect(read).toMatchObject({ ok: false, code });
  });
});
