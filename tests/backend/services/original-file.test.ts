import { createHash } from 'node:crypto';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { keptAs } from '../../../core/files/encoded.ts';
import { type Encoding, encodingOf } from '../../../core/files/encoding.ts';
import type { RecordsLine } from '../../../core/files/records-file.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { openTestArchive } from '../../support/archive.ts';
import { give, laptop, recordLines, stick, take } from '../../support/two-laptops.ts';
import { joined, refusalOf } from './joined.ts';

const table = 'Frequenz (MHz);Pegel (dBµV)\r\n54,25;96,5\r\n60,25;-3,1\r\n';
const files: readonly (readonly [string, Buffer, Encoding])[] = [
  ['UTF-8', Buffer.from(table), 'utf-8'],
  ['UTF-8 with its byte order mark', Buffer.from(`\uFEFF${table}`), 'utf-8'],
  ['UTF-16LE with its mark', Buffer.from(`\uFEFF${table}`, 'utf16le'), 'utf-16le'],
  ['UTF-16BE with its mark', Buffer.from(`\uFEFF${table}`, 'utf16le').swap16(), 'utf-16be'],
  ['Windows-1252', Buffer.from(table, 'latin1'), 'windows-1252'],
];

type Bench = Awaited<ReturnType<typeof joined>>;
/** As the page does it: the bytes read in the letters that they are in, and proven. */
async function importing({ handlers, visit, signal }: Bench, bytes: Buffer): Promise<string> {
  const encoding = encodingOf(bytes);
  const text = new TextDecoder(encoding, { ignoreBOM: true }).decode(bytes);
  expect(keptAs(bytes, text, encoding)).toBe(encoding);
  const file = { fileName: 'pegel.csv', text, encoding, testPointLossDb: 0, purpose: 'check' } as const;
  const { sweepId } = await handlers['sweeps.import'](
    { visitId: visit.visitId, portName: 'forward output', ...file },
    signal,
  );
  return sweepId;
}
const original = async ({ handlers, signal }: Bench, sweepId: string) => {
  const { fileName, base64 } = await handlers['sweeps.original']({ sweepId }, signal);
  return [fileName, Buffer.from(base64, 'base64')];
};
const sha256 = (bytes: Buffer) => createHash('sha256').update(bytes).digest('hex');

describe.each(files)('a file in %s', (_what, bytes, encoding) => {
  it('is given out byte by byte, by its correction too, and proves itself', async () => {
    const bench = await joined();
    expect(encodingOf(bytes)).toBe(encoding);
    const sweepId = await importing(bench, bytes);
    expect(await original(bench, sweepId)).toEqual(['pegel.csv', bytes]);
    const said = {
      reason: 'the other port',
      operator: 'R. Voss',
      portName: 'forward output',
      purpose: 'check',
    } as const;
    const { sweepId: corrected } = await bench.handlers['sweeps.correct'](
      { sweepId, ...said, testPointLossDb: 16 },
      bench.signal,
    );
    expect(await original(bench, corrected)).toEqual(['pegel.csv', bytes]);
    expect((await verify(bench.archive, bench.signal)).broken).toEqual([]);
  });

  it('is the same on the laptop that takes its record in', async () => {
    const bench = await joined();
    const sweepId = await importing(bench, bytes);
    const [other, folder] = [laptop(), stick()];
    const { path } = await give(bench.archive, folder);
    const line = recordLines(bench.archive)
      .map((one) => JSON.parse(one) as RecordsLine)
      .find(({ kind }) => kind === 'sweep');
    // A file in UTF-8 needs no more than its text, and its record says what it always said.
    expect(line?.document.fileWritten).toEqual(
      encoding === 'utf-8' ? undefined : { encoding, sha256: sha256(bytes) },
    );
    await take(other, path);
    const row = other.sweeps.byId(sweepId);
    const file = row === undefined ? undefined : other.sweeps.fileOf(row.seq);
    expect(file).toMatchObject({ encoding: encoding === 'utf-8' ? null : encoding });
    expect((await verify(other, bench.signal)).broken).toEqual([]);
  });
});

it('of a sweep that a meter read there is none, and a paste is its own text', async () => {
  const bench = await joined();
  const sweepId = await bench.start(3);
  await bench.endOf(sweepId);
  expect(await refusalOf(() => original(bench, sweepId))).toMatchObject({ code: 'no-file' });
  const pasted = {
    fileName: 'pasted table',
    text: 'MHz,dBmV\n54,36\n',
    testPointLossDb: 0,
    purpose: 'check',
  } as const;
  const { visitId } = bench.visit;
  const { sweepId: ofPaste } = await bench.handlers['sweeps.import'](
    { visitId, portName: 'forward output', ...pasted },
    bench.signal,
  );
  expect(await original(bench, ofPaste)).toEqual(['pasted table', Buffer.from(pasted.text)]);
});

it('is refused where its text has a letter that its encoding has not', async () => {
  const bench = await joined();
  const { visitId } = bench.visit;
  const file = { fileName: 'a.csv', text: 'MHz,dBmV\n54,−36\n', encoding: 'windows-1252' } as const;
  const asked = {
    visitId,
    portName: 'forward output',
    purpose: 'check',
    testPointLossDb: 0,
    ...file,
  } as const;
  expect(await refusalOf(() => bench.handlers['sweeps.import'](asked, bench.signal))).toMatchObject({
    code: 'not-text',
    where: 'a.csv',
  });
});

it('an encoding that somebody exchanged is found by verify, and gives no file', async () => {
  const folder = stick();
  const bench = await joined({ folder });
  const sweepId = await importing(bench, files[2]?.[1] ?? Buffer.alloc(0));
  bench.archive.close();
  const db = new Database(`${folder}/${ARCHIVE_FILE}`);
  db.exec(
    "DROP TRIGGER sweep_file_written_is_never_changed; UPDATE sweep_file_written SET encoding = 'utf-16be'",
  );
  db.close();
  const again = openTestArchive(folder);
  expect((await verify(again, bench.signal)).broken).toMatchObject([{ kind: 'sweep', id: sweepId }]);
});

it('records of before are as they were: the step changes no hash', async () => {
  const folder = stick();
  const bench = await joined({ folder });
  await importing(bench, files[0]?.[1] ?? Buffer.alloc(0));
  const head = bench.archive.head();
  bench.archive.close();
  // As the program of before left it.
  const db = new Database(`${folder}/${ARCHIVE_FILE}`);
  db.exec('DROP TABLE sweep_file_written; PRAGMA user_version = 10');
  db.close();
  const again = openTestArchive(folder);
  expect(again.head()).toEqual(head);
  expect((await verify(again, bench.signal)).broken).toEqual([]);
});
