import { createHash } from 'node:crypto';
import { copyFileSync, statSync, truncateSync } from 'node:fs';
import { join } from 'node:path';
import type Database from 'better-sqlite3';
import { beforeEach, describe, expect, it } from 'vitest';
import { MARKER_FILE } from '../../../electron/backend/archive/marker.ts';
import { ARCHIVE_FILE } from '../../../electron/backend/archive/open.ts';
import { verify } from '../../../electron/backend/services/verify.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../../support/archive.ts';
import { joined } from '../services/joined.ts';

const signal = new AbortController().signal;

/** A closed archive with three sweeps, a void and a correction. */
async function recorded() {
  const bench = await joined();
  const sweepIds: string[] = [];
  for (let i = 0; i < 3; i += 1) {
    const sweepId = await bench.start(20 + i);
    await bench.endOf(sweepId);
    sweepIds.push(sweepId);
  }
  const [first = '', second = ''] = sweepIds;
  const said = { reason: 'wrong test point', operator: 'R. Voss' };
  await bench.handlers['sweeps.void']({ sweepId: first, ...said }, signal);
  await bench.handlers['sweeps.correct']({ sweepId: second, ...said, testPointLossDb: 16 }, signal);
  await bench.handlers['visits.end']({ visitId: bench.visit.visitId, note: 'done' }, signal);
  const head = bench.archive.head();
  await bench.close();
  bench.archive.close();
  return { folder: bench.folder, sweepIds, head };
}

let whole: Awaited<ReturnType<typeof recorded>>;
beforeEach(async () => {
  whole = await recorded();
});

/** As somebody with a database tool does it: the guards taken away first. */
const tamper = (work: (db: Database.Database) => void) =>
  lookInto(whole.folder, (db) => {
    db.pragma('foreign_keys = OFF');
    const triggers = db.prepare("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all();
    for (const name of triggers) db.exec(`DROP TRIGGER ${name}`);
    work(db);
  });
const verified = () => verify(openTestArchive(whole.folder), signal);

it('finds nothing wrong with what the program recorded, and tells the head', async () => {
  const { broken, sweeps, records, head } = await verified();
  expect(broken).toEqual([]);
  expect(sweeps).toBe(4);
  expect(records).toBe(head.seq);
  expect(head).toEqual(whole.head);
});

// The chain as anybody can make it from the stored rows with a hash function and nothing of ours.
it('has the hashes that an independent reading of the record gives', async () => {
  const links = lookInto(whole.folder, (db) =>
    db
      .prepare<[], { seq: number; kind: string; row: number; hash: string }>(
        'SELECT device_seq seq, kind, row, lower(hex(hash)) hash FROM link ORDER BY device_seq',
      )
      .all(),
  );
  const end = links.find(({ kind }) => kind === 'visit-end');
  const before = links.find(({ seq }) => seq === (end?.seq ?? 0) - 1);
  const facts = lookInto(whole.folder, (db) => ({
    visit: db.prepare('SELECT visit_id FROM visit').pluck().get(),
    session: db.prepare('SELECT session_id FROM session').pluck().get(),
    at: db.prepare('SELECT ended_at FROM visit_end').pluck().get(),
  }));
  const text = `tiltwright-record/1\n${whole.head.device}\n${end?.seq}\n${before?.hash}\nvisit-end\n{"endedAtMs":${facts.at},"note":"done","session":"${facts.session}","visit":"${facts.visit}"}`;
  expect(createHash('sha256').update(text).digest('hex')).toBe(end?.hash);
  expect(links.map(({ seq }) => seq)).toEqual(links.map((_, i) => i + 1));
  expect(links[0]?.kind).toBe('session');
});

describe('names what is not as it was recorded', () => {
  it('one changed reading', async () => {
    tamper((db) => {
      const body = db.prepare('SELECT body FROM sweep_levels WHERE sweep = 2').pluck().get() as Buffer;
      // The last bit of one level's step.
      body[8] = (body[8] ?? 0) ^ 2;
      db.prepare('UPDATE sweep_levels SET body = ? WHERE sweep = 2').run(body);
    });
    const { broken } = await verified();
    expect(broken).toHaveLength(1);
    expect(broken[0]).toMatchObject({ what: 'changed', kind: 'sweep', id: whole.sweepIds[1] });
    expect(broken[0]?.words).toMatch(/^record \d+ \(sweep\) .* is not what was recorded/);
  });

  it('a level that can not be unpacked any more', async () => {
    tamper((db) => db.exec("UPDATE sweep_levels SET body = x'0101' WHERE sweep = 2"));
    expect((await verified()).broken).toMatchObject([{ what: 'unreadable', kind: 'sweep' }]);
  });

  it('another operator, meter, bytes of the wire or reason', async () => {
    tamper((db) => {
      db.exec("UPDATE visit SET operator = 'somebody else'");
      db.exec("UPDATE shared_text SET body = replace(body, 'model', 'modal') WHERE body LIKE '%model%'");
      db.exec("UPDATE sweep_void SET reason = 'no reason'");
    });
    const kinds = (await verified()).broken.map(({ kind, what }) => `${kind} ${what}`);
    expect(kinds).toEqual(expect.arrayContaining(['visit changed', 'void changed', 'sweep changed']));
  });

  it('a removed record, with its link, without it, and the last one', async () => {
    tamper((db) => db.exec("DELETE FROM link WHERE kind = 'sweep' AND row = 2"));
    // Its rows are still there, and belong to nothing.
    expect((await verified()).broken).toMatchObject([
      { what: 'missing', kind: 'record' },
      { what: 'unlinked', kind: 'sweep', id: whole.sweepIds[1] },
    ]);
    whole = await recorded();
    tamper((db) => {
      for (const table of ['sweep_levels', 'sweep_end']) db.exec(`DELETE FROM ${table} WHERE sweep = 3`);
      db.exec('DELETE FROM sweep WHERE seq = 3');
    });
    expect((await verified()).broken).toMatchObject([{ what: 'missing', kind: 'sweep' }]);
    whole = await recorded();
    tamper((db) => {
      db.exec('DELETE FROM visit_end');
      db.exec('DELETE FROM link WHERE seq = (SELECT max(seq) FROM link)');
    });
    expect((await verified()).broken).toMatchObject([{ what: 'missing', id: 'at the end of the chain' }]);
  });

  it('two records exchanged, in their tables or in the chain', async () => {
    tamper((db) => {
      db.exec(`UPDATE sweep_levels SET sweep = 103 WHERE sweep = 3; UPDATE sweep_levels SET sweep = 3 WHERE sweep = 1;
        UPDATE sweep_levels SET sweep = 1 WHERE sweep = 103;`);
    });
    expect((await verified()).broken).toMatchObject([
      { what: 'changed', id: whole.sweepIds[0] },
      { what: 'changed', id: whole.sweepIds[2] },
    ]);
    whole = await recorded();
    tamper((db) => {
      const [a, b] = db.prepare("SELECT device_seq FROM link WHERE kind = 'sweep' LIMIT 2").pluck().all();
      db.exec(`UPDATE link SET device_seq = 9999 WHERE device_seq = ${a};
        UPDATE link SET device_seq = ${a} WHERE device_seq = ${b}; UPDATE link SET device_seq = ${b} WHERE device_seq = 9999`);
    });
    const { broken } = await verified();
    expect(broken.map(({ what }) => what)).toContain('changed');
    expect(broken[0]).toMatchObject({ kind: 'sweep' });
  });

  it('an inserted record, without a link, and with one that was made up', async () => {
    const insert = `INSERT INTO sweep_void VALUES (NULL, '00000000-0000-4000-8000-ffffffffffff', 3, 'because', 'X', 0, 1, 0)`;
    tamper((db) => db.exec(insert));
    expect((await verified()).broken).toMatchObject([{ what: 'unlinked', kind: 'void', seq: null }]);
    whole = await recorded();
    tamper((db) => {
      db.exec(insert);
      db.exec(
        "INSERT INTO link SELECT NULL, 1, max(device_seq) + 1, 'void', 2, 0, NULL, zeroblob(32) FROM link",
      );
    });
    expect((await verified()).broken).toMatchObject([
      { what: 'changed', kind: 'void', seq: whole.head.seq + 1 },
    ]);
  });
});

it('does not open a truncated file, and says so', () => {
  const { size } = statSync(join(whole.folder, ARCHIVE_FILE));
  for (const share of [0.2, 0.5, 0.9]) {
    const folder = throwAwayFolder();
    for (const file of [ARCHIVE_FILE, MARKER_FILE])
      copyFileSync(join(whole.folder, file), join(folder, file));
    truncateSync(join(folder, ARCHIVE_FILE), Math.floor(size * share));
    expect(() => openTestArchive(folder)).toThrow(/damaged/);
  }
});

it('can be asked to stop', async () => {
  const controller = new AbortController();
  controller.abort(new Error('enough'));
  const slow = {
    *verify() {
      for (;;) yield 1;
    },
  };
  await expect(verify(slow as never, controller.signal)).rejects.toThrow('enough');
});
