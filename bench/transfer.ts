import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { openArchive } from '../electron/backend/archive/open.ts';
import { giveOut } from '../electron/backend/services/give-out.ts';
import { takeIn } from '../electron/backend/services/take-in.ts';
import { benchSession, fillArchive } from './archive-filled.ts';
import type { BenchRow } from './timing.ts';

export type TransferBench = Readonly<{
  sweeps: number;
  bytes: number;
  /** The one transaction, which nothing else can do something beside. */
  keepMs: number;
  /** The longest that anything else waited while the file was read. */
  longestHoldMs: number;
  rows: readonly BenchRow[];
}>;

const AGAINST = 'bare better-sqlite3, the same rows';
/** What one sweep with its share of a visit is in tables. */
const TABLES = [
  'session',
  'station',
  'design_revision',
  'visit',
  'visit_end',
  'shared_text',
  'frequency_list',
  'sweep',
  'sweep_levels',
  'sweep_end',
  'link',
];

/** The same rows into the same columns, without guards, keys or questions: the least that the disk asks for. */
function bareMs(from: string, into: string): number {
  const db = new Database(into);
  db.pragma('journal_mode = WAL');
  db.pragma('synchronous = FULL');
  const source = new Database(from, { readonly: true });
  const rows = TABLES.map((table) => ({
    table,
    all: source.prepare(`SELECT * FROM ${table}`).raw().all() as unknown[][],
  }));
  source.close();
  const start = performance.now();
  db.transaction(() => {
    for (const { table, all } of rows) {
      const [first = []] = all;
      db.exec(`CREATE TABLE ${table} (${first.map((_, i) => `c${i}`).join(', ')})`);
      const add = db.prepare(`INSERT INTO ${table} VALUES (${first.map(() => '?').join(', ')})`);
      for (const row of all) add.run(...row);
    }
  }).immediate();
  const ms = performance.now() - start;
  db.close();
  return ms;
}

/**
 * How long a file of many sweeps takes from one laptop to another.
 * @param sweepCount  of 158 channels each
 */
export async function transferBench(sweepCount: number): Promise<TransferBench> {
  const signal = new AbortController().signal;
  const folder = mkdtempSync(join(tmpdir(), 'tiltwright-bench-'));
  const at = (name: string) => join(folder, name);
  try {
    const from = fillArchive(at('from'), sweepCount, Math.max(1, sweepCount / 20));
    let start = performance.now();
    const given = await giveOut(
      from,
      { what: { kind: 'everything' }, path: folder, madeAtMs: Date.now() },
      signal,
    );
    const giveMs = performance.now() - start;
    from.close();

    const opened = openArchive({ folder: at('to'), session: benchSession() });
    let keepMs = 0;
    const to = {
      ...opened,
      write<T>(work: () => T): T {
        const begun = performance.now();
        try {
          return opened.write(work);
        } finally {
          keepMs = Math.max(keepMs, performance.now() - begun);
        }
      },
    };
    let longestHoldMs = 0;
    let last = performance.now();
    const looking = setInterval(() => {
      const now = performance.now();
      longestHoldMs = Math.max(longestHoldMs, now - last);
      last = now;
    }, 1);
    const order = {
      path: given.path,
      operator: '',
      now: () => new Date(),
      calm: async () => clearInterval(looking),
    };
    start = performance.now();
    const taken = await takeIn(to, order, signal);
    const takeMs = performance.now() - start;
    if (taken.sweeps !== sweepCount) throw new Error(`${taken.sweeps} sweeps came over`);
    start = performance.now();
    const twice = await takeIn(to, { ...order, calm: undefined }, signal);
    const againMs = performance.now() - start;
    if (twice.added !== 0) throw new Error('a file taken in twice added something');
    opened.close();
    const bare = bareMs(at('to/tiltwright.sqlite'), at('bare.sqlite'));
    const row = (what: string, ms: number): BenchRow => ({
      what,
      medianMs: ms,
      against: AGAINST,
      ratio: ms / bare,
    });
    return {
      sweeps: sweepCount,
      bytes: given.bytes,
      keepMs,
      longestHoldMs,
      rows: [
        row('give everything as one file', giveMs),
        row('take the file in, every hash checked', takeMs),
        row('  its one transaction', keepMs),
        row('take it in once more', againMs),
        row(`  ${AGAINST}`, bare),
      ],
    };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
