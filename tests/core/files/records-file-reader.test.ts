import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { recordsText } from '../../../core/files/records-file.ts';
import { createRecordsReader } from '../../../core/files/records-file-reader.ts';
import type { PlainObject } from '../../../core/records/canonical-text.ts';
import { linkHash } from '../../../core/records/chain.ts';

const sha256Hex = (text: string) => createHash('sha256').update(text).digest('hex');
const id = (digit: string) => `${digit.repeat(8)}-5d0e-4c7b-9a53-0f6f3f0d2b11`;
const GENESIS = '0'.repeat(64);
const device = id('a');
const session = {
  ...{ sessionId: id('1'), openedAtMs: 1, program: '1', host: 'memory', utcOffsetMin: 0, timeZone: 'UTC' },
};
const design = {
  ...{
    designId: id('2'),
    stationId: 'slipway',
    name: 'Slipway',
    design: '{}',
    fileName: 's.json',
    addedAtMs: 1,
  },
  ...{ orderMs: 1, session: id('1') },
};
const visit = {
  ...{
    visitId: id('3'),
    stationId: 'slipway',
    operator: '',
    ambientMc: null,
    cautionsReadAtMs: 1,
    startedAtMs: 1,
  },
  ...{ orderMs: 2, session: id('1') },
};
const header = recordsText({
  format: 'tiltwright-records/1',
  ...{ device, madeAtMs: 1, program: '1', what: { kind: 'everything' }, head: { seq: 3, hash: GENESIS } },
});
const line = (kind: string, seq: number, document: PlainObject, name: string) => {
  const place = { device, seq, previous: GENESIS };
  const hash = linkHash(place, kind, document, sha256Hex);
  return recordsText({ ...place, hash, kind, id: name, document });
};
const records = [
  line('session', 1, session, id('1')),
  line('design', 2, design, id('2')),
  line('visit', 3, visit, id('3')),
];

/** What the reader says in the end, or where it stops. */
function read(lines: readonly string[]) {
  let before = '';
  const contents = () => ({ ok: true, value: null }) as const;
  const reader = createRecordsReader('a', { sha256Hex, before: () => sha256Hex(before), contents });
  for (const text of lines) {
    const said = reader.line(text.slice(0, -1));
    if (!said.ok) return said;
    before += text;
  }
  return reader.finish();
}
const closed = (lines: readonly string[]) => [
  ...lines,
  recordsText({ end: true, records: lines.length - 1, sha256: sha256Hex(lines.join('')) }),
];

describe('a file of records', () => {
  it('is whole when everything in it is what it says', () => {
    expect(read(closed([header, ...records]))).toMatchObject({ ok: true, value: { records: 3 } });
  });

  const [first = '', second = '', third = ''] = records;
  const other = line('visit', 3, { ...visit, stationId: 'mole' }, id('3'));
  it.each([
    ['its end is missing', [header, ...records], 'incomplete'],
    ['it is empty', [], 'incomplete'],
    ['a word was changed', closed([header, first, second.replace('Slipway', 'Slipwax')]), 'changed'],
    ['a record is called otherwise', closed([header, line('session', 1, session, id('9'))]), 'not-a-record'],
    ['a session is missing', closed([header, second]), 'missing-record'],
    [
      'a visit stands before the design of its station',
      closed([header, first, third, second]),
      'missing-record',
    ],
    ['a station has no design', closed([header, first, second, other]), 'missing-record'],
    ['a line is missing', [header, ...closed([header, ...records]).slice(2)], 'missing-record'],
    ['something follows the end', [...closed([header, ...records]), first], 'bad-line'],
    [
      'the count is another',
      [header, first, recordsText({ end: true, records: 2, sha256: GENESIS })],
      'changed',
    ],
    [
      'the hash is another',
      [header, first, recordsText({ end: true, records: 1, sha256: GENESIS })],
      'changed',
    ],
    [
      'it has a truck',
      closed([
        header,
        first,
        line('truck', 2, { truck: null, visit: null, changedAtMs: 1, orderMs: 1, session: id('1') }, id('5')),
      ]),
      'unknown-record',
    ],
    ['it has what no program knows', closed([header, line('spectrum', 1, {}, 'x')]), 'unknown-record'],
  ])('is refused where %s', (_, lines, code) => {
    expect(read(lines)).toMatchObject({ ok: false, code });
  });
});
