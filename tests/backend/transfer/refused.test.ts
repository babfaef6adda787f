import { createHash } from 'node:crypto';
import { copyFileSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { gunzipSync, gzipSync } from 'node:zlib';
import Database from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import type { RecordsLine } from '../../../core/files/records-file.ts';
import { linkHash } from '../../../core/records/chain.ts';
import { takeInFolder } from '../../../electron/backend/services/shared-folder.ts';
import { takeIn } from '../../../electron/backend/services/take-in.ts';
import {
  brokenIn,
  give,
  laptop,
  listsOf,
  never,
  recordLines,
  stick,
  take,
  visitOf,
} from '../../support/two-laptops.ts';

const BASE_MS = Date.parse('2026-03-02T08:00:00Z');
const sha256 = (text: string) => createHash('sha256').update(text, 'utf8').digest('hex');

async function made() {
  const [a, b, folder] = [laptop(), laptop(), stick()];
  const sweepId = visitOf(a, 'slipway', { atMs: BASE_MS, levelDbmv: 16, isOpen: false });
  const { path } = await give(a, folder);
  const bytes = readFileSync(path);
  const lines = gunzipSync(bytes).toString('utf8').split('\n').slice(0, -1);
  return { a, b, folder, path, bytes, lines, sweepId };
}
/** The file with these lines, closed as the program would. */
function closed(lines: readonly string[]): Buffer {
  const body = `${lines.join('\n')}\n`;
  return gzipSync(
    `${body}${JSON.stringify({ end: true, records: lines.length - 1, sha256: sha256(body) })}\n`,
  );
}
const recordAt = (lines: readonly string[], kind: string): number =>
  lines.findIndex((line) => line.includes(`"kind":"${kind}","id"`));
/** A record with other words and a hash that fits them, as somebody would make it who can. */
function rehashed(line: string, change: Readonly<Record<string, unknown>>): string {
  const record = JSON.parse(line) as RecordsLine;
  const document = { ...record.document, ...change } as RecordsLine['document'];
  const { device, seq, previous, kind } = record;
  return JSON.stringify({
    ...record,
    document,
    hash: linkHash({ device, seq, previous }, kind, document, sha256),
  });
}

type Bench = Awaited<ReturnType<typeof made>>;
const cases: Readonly<Record<string, readonly [(bench: Bench) => Buffer, string]>> = {
  'cut in the middle, as a copy under way': [
    ({ bytes }) => bytes.subarray(0, bytes.length >> 1),
    'incomplete',
  ],
  'cut by its last byte': [({ bytes }) => bytes.subarray(0, -1), 'incomplete'],
  empty: [() => Buffer.alloc(0), 'incomplete'],
  'without its end': [({ lines }) => gzipSync(`${lines.slice(0, -1).join('\n')}\n`), 'incomplete'],
  'with one bit turned': [
    ({ bytes }) => {
      const turned = Buffer.from(bytes);
      turned[bytes.length >> 1] = (turned[bytes.length >> 1] ?? 0) ^ 4;
      return turned;
    },
    'changed',
  ],
  'with a level changed': [
    ({ lines }) => closed(lines.slice(0, -1).map((line) => line.replace('16100', '16200'))),
    'changed',
  ],
  'with two lines exchanged': [
    ({ lines }) => {
      const [first = '', ...rest] = lines.slice(0, -1);
      return closed([first, ...rest.toReversed()]);
    },
    'missing-record',
  ],
  'with a record left out that another names': [
    ({ lines }) => closed(lines.slice(0, -1).filter((line) => !line.includes('"kind":"visit","id"'))),
    'missing-record',
  ],
  'with a line more than its end counts': [
    ({ lines }) => gzipSync(`${[...lines, lines[1]].join('\n')}\n`),
    'bad-line',
  ],
  'with a design that is no station': [
    ({ lines }) => {
      const at = recordAt(lines, 'design');
      return closed(
        lines.slice(0, -1).map((line, i) => (i === at ? rehashed(line, { design: '{}' }) : line)),
      );
    },
    'not-a-record',
  ],
  'with a name that no table takes': [
    ({ lines }) => {
      const at = recordAt(lines, 'design');
      return closed(lines.slice(0, -1).map((line, i) => (i === at ? rehashed(line, { name: '\0' }) : line)));
    },
    'not-a-record',
  ],
  'without the bytes that went over the wire': [
    ({ lines }) => closed(lines.slice(0, -1).map((line) => line.replace(/,"attachments":\{[^}]*\}/, ''))),
    'changed',
  ],
  'of a later form': [
    ({ lines }) => gzipSync(`${lines.join('\n').replace('tiltwright-records/1', 'tiltwright-records/2')}\n`),
    'newer-records',
  ],
  'that is something else, packed': [() => gzipSync('{"format":"tiltwright-station/1"}\n'), 'not-records'],
  'that is something else': [() => Buffer.from('frequency_mhz,level_dbmv\n54,36\n'), 'not-records'],
};

describe('a file', () => {
  it.each(Object.entries(cases))(
    '%s is refused in one line, and nothing is changed',
    async (_, [make, code]) => {
      const bench = await made();
      const path = join(bench.folder, 'other.records.gz');
      writeFileSync(path, make(bench));
      const refusal = await take(bench.b, path).then(
        () => null,
        (fault: unknown) => fault,
      );
      expect(refusal).toMatchObject({ refusal: { code } });
      expect(String(refusal)).not.toMatch(/\n/);
      expect(listsOf(bench.b)).toEqual([]);
      expect(bench.b.transfer.takenFiles()).toEqual([]);
      expect(bench.b.head().seq).toBe(0);
    },
  );

  it('that is stopped on the way changes nothing', async () => {
    const { b, path } = await made();
    const stopper = new AbortController();
    stopper.abort();
    const taking = takeIn(
      b,
      { path, operator: '', now: () => new Date(0), calm: async () => undefined },
      stopper.signal,
    );
    await expect(taking).rejects.toMatchObject({ name: 'AbortError' });
    expect(b.transfer.takenFiles()).toEqual([]);
  });
});

describe('a record that says otherwise than one of its name', () => {
  it('is kept beside it, and goes on to others with it', async () => {
    const { a, folder, lines, path, sweepId } = await made();
    const at = recordAt(lines, 'sweep');
    const other = join(folder, 'changed.records.gz');
    writeFileSync(
      other,
      closed(
        lines.slice(0, -1).map((line, i) => (i === at ? rehashed(line, { testPointLossMdb: 16_000 }) : line)),
      ),
    );
    expect(await take(a, other)).toMatchObject({ added: 0, conflicts: 1 });
    const [pair] = a.transfer.conflicts();
    expect(pair).toMatchObject({ kind: 'sweep', id: sweepId });
    expect(pair?.here?.document.testPointLossMdb).toBe(20_000);
    expect(pair?.other.document.testPointLossMdb).toBe(16_000);
    expect(await brokenIn(a)).toEqual([]);
    const db = new Database(a.path);
    db.exec(
      `DROP TRIGGER conflict_is_never_changed; UPDATE conflict SET document = replace(document, '16000', '17000')`,
    );
    expect(await brokenIn(a)).toMatchObject([{ what: 'changed', kind: 'sweep', id: sweepId }]);
    db.exec(`UPDATE conflict SET document = replace(document, '17000', '16000')`);
    db.close();
    expect(await take(a, other)).toMatchObject({ added: 0, conflicts: 0 });
    expect(a.transfer.conflicts()).toHaveLength(1);

    // The other way round it is the same two, and a third laptop gets both.
    const [b, c] = [laptop(), laptop()];
    await take(b, other);
    await take(b, path);
    expect(recordLines(b).toSorted()).toEqual(recordLines(a).toSorted());
    await take(c, (await give(a, folder)).path);
    expect(c.transfer.conflicts()).toHaveLength(1);
    expect(recordLines(c).toSorted()).toEqual(recordLines(a).toSorted());
  });
});

describe('a folder that was copied to another laptop', () => {
  it('makes two laptops of one name; both are taken in, and each chain is whole', async () => {
    const folder = stick();
    const first = laptop(folder);
    visitOf(first, 'slipway', { atMs: BASE_MS, levelDbmv: 16, isOpen: false });
    first.copies.checkpoint();
    const copy = stick();
    for (const name of ['tiltwright.sqlite', 'tiltwright.archive'])
      try {
        copyFileSync(join(folder, name), join(copy, name));
      } catch {
        // The marker may be called otherwise; without it the copy opens all the same.
      }
    const second = laptop(copy);
    expect(second.head()).toEqual(first.head());
    visitOf(first, 'mole', { atMs: BASE_MS + 1, levelDbmv: 16, isOpen: false });
    visitOf(second, 'gasworks', { atMs: BASE_MS + 2, levelDbmv: 17, isOpen: false });
    const drive = stick();
    const files = [await give(first, drive), await give(second, drive)];
    const [c, d] = [laptop(), laptop()];
    for (const { path } of files) await take(c, path);
    for (const { path } of files.toReversed()) await take(d, path);
    await take(first, files[1]?.path ?? '');
    expect(recordLines(c)).toEqual(recordLines(d));
    expect(recordLines(first)).toEqual(recordLines(c));
    expect(listsOf(c).map(({ stationId }) => stationId)).toHaveLength(3);
    for (const archive of [first, c, d]) expect(await brokenIn(archive)).toEqual([]);
  });
});

describe('a folder that laptops drop their files into', () => {
  it('is taken in whole: new, taken in before, not yet complete, refused, each with its word', async () => {
    const { a, b, folder, path, bytes } = await made();
    writeFileSync(join(folder, 'half.records.gz'), bytes.subarray(0, 200));
    writeFileSync(join(folder, 'odd.records.gz'), 'no');
    writeFileSync(join(folder, 'notes.txt'), 'no records');
    const order = { operator: '', now: () => new Date(0) };
    const first = await takeInFolder(b, folder, order, never);
    const became = (files: typeof first) => files.map((file) => file.became);
    expect(became(first)).toEqual(['incomplete', 'refused', 'taken-in']);
    copyFileSync(path, join(folder, 'again.records.gz'));
    expect(became(await takeInFolder(b, folder, order, never))).toEqual([
      'before',
      'incomplete',
      'refused',
      'before',
    ]);
    expect(became(await takeInFolder(a, folder, order, never))).toEqual([
      'own',
      'incomplete',
      'refused',
      'before',
    ]);
  });
});
