import { describe, expect, it, vi } from 'vitest';
import { readSweepCsv } from '../../../core/files/sweep-csv.ts';
import type { Ballast } from '../../../electron/backend/archive/ballast.ts';
import type { Archive } from '../../../electron/backend/archive/open.ts';
import { createCare } from '../../../electron/backend/services/care.ts';
import type { Designs } from '../../../electron/backend/services/designs.ts';
import { silentLog } from '../../support/archive.ts';
import { fillTheDisk, freeTheDisk } from '../../support/archive-connection.ts';
import { joined, refusalOf } from './joined.ts';

vi.mock('better-sqlite3', async (original) =>
  (await import('../../support/watched-sqlite.ts')).watched(await original()),
);

type Bench = Awaited<ReturnType<typeof joined>>;
const careOf = (bench: Bench) => bench.handlers['care.read']({}, bench.signal);
const toldOf = (bench: Bench) =>
  bench.sent.flatMap((event) => (event.name === 'care.changed' ? [event.data] : []));
/** Some readings are on the disk, the rest is held. */
async function held(): Promise<Readonly<{ bench: Bench; sweepId: string }>> {
  const bench = await joined();
  fillTheDisk(4);
  // So many don't fit into the pages that are left.
  const sweepId = await bench.start(2000);
  await bench.endOf(sweepId);
  return { bench, sweepId };
}

describe('a sweep that the disk refuses', () => {
  it('is told as what it is: so much on the disk, so much in memory only', async () => {
    const { bench, sweepId } = await held();
    const onDisk = bench.readCount();
    const [last] = toldOf(bench).slice(-1);
    expect(last?.held).toMatchObject([
      {
        sweepId,
        stationId: 'slipway',
        stationName: 'Slipway 2',
        portName: 'forward output',
        onDisk,
        why: expect.stringContaining('the disk takes no more (SQLITE_FULL)'),
      },
    ]);
    expect(last?.held[0]?.inMemory).toBeGreaterThan(0);
    expect((await careOf(bench)).held).toEqual(last?.held);
  });

  it('is given out whole as a file while it is held, and the file can be taken in again', async () => {
    const { bench, sweepId } = await held();
    const [one] = (await careOf(bench)).held;
    const { text, fileName } = await bench.handlers['sweeps.export']({ sweepId }, bench.signal);
    const read = readSweepCsv(text, fileName);
    expect(read.ok && read.value.rows).toHaveLength((one?.onDisk ?? 0) + (one?.inMemory ?? 0));
    freeTheDisk();
    await bench.handlers['care.keep']({}, bench.signal);
    const again = await bench.handlers['sweeps.export']({ sweepId }, bench.signal);
    // All that is kept later is what was given out then.
    expect(readSweepCsv(again.text, fileName)).toEqual(read);
  });

  it('is tried again when somebody says so: refused in one line while the disk is full, kept when it is not', async () => {
    const { bench, sweepId } = await held();
    const [one] = (await careOf(bench)).held;
    const refusal = await refusalOf(() => bench.handlers['care.keep']({}, bench.signal));
    expect(refusal).toMatchObject({ code: 'full', help: expect.stringContaining('free some space') });
    expect((await careOf(bench)).held).toEqual([one]);
    freeTheDisk();
    expect((await bench.handlers['care.keep']({}, bench.signal)).held).toEqual([]);
    expect(toldOf(bench).at(-1)?.held).toEqual([]);
    const sweep = await bench.open(sweepId);
    expect(sweep.readings).toHaveLength((one?.onDisk ?? 0) + (one?.inMemory ?? 0));
  });
});

/** A ballast whose room lets SQLite write again, as a file's does on a real disk. */
function ballastOf(there: boolean) {
  const listeners: (() => void)[] = [];
  let isThere = there;
  const ballast: Ballast = {
    isThere: () => isThere,
    make: () => {
      isThere = true;
      return Promise.resolve(true);
    },
    free() {
      if (!isThere) return false;
      isThere = false;
      freeTheDisk();
      for (const listener of listeners) listener();
      return true;
    },
    whenFreed: (listener) => listeners.push(listener),
  };
  return ballast;
}

describe('the ballast', () => {
  it('goes where the disk is full, and the sweep is kept to its end; what else can be done again is refused before', async () => {
    const ballast = ballastOf(true);
    const bench = await joined({ ballast });
    fillTheDisk(0);
    const importing = bench.handlers['stations.import'](
      { fileName: 'x.json', text: JSON.stringify({ name: 'x'.repeat(90_000) }) },
      bench.signal,
    );
    await expect(importing).rejects.toThrow();
    expect(ballast.isThere()).toBe(true);
    freeTheDisk();
    fillTheDisk(4);
    const sweepId = await bench.start(400);
    expect(await bench.endOf(sweepId)).toMatchObject({ state: 'complete', readingCount: 400, reason: null });
    expect((await bench.open(sweepId)).readings).toHaveLength(400);
    await bench.until(() => toldOf(bench).length > 0);
    expect(toldOf(bench)).toMatchObject([{ ballast: 'given-up', held: [] }]);
  });

  const careAbout = (bench: Bench, freeBytes: () => number, ballast: Ballast) => {
    const sent: string[] = [];
    const care = createCare(
      {
        archive: { ...bench.archive, ballast, freeBytes } satisfies Archive,
        emit: (name, data) => void sent.push(`${name} ${'ballast' in data ? data.ballast : ''}`),
        now: bench.now,
        newId: bench.newId,
        log: silentLog,
      },
      {} as Designs,
      { held: () => [], whenHeld: () => undefined, settleHeld: () => undefined, running: () => null },
    );
    return { care, sent };
  };

  it('is made where there is room, and given up and made again as the room goes and comes', async () => {
    const bench = await joined();
    let free = 219_999_999;
    const ballast = ballastOf(false);
    const { care, sent } = careAbout(bench, () => free, ballast);
    care.begin(5);
    await new Promise((resolve) => setTimeout(resolve, 40));
    expect([ballast.isThere(), care.read().ballast]).toEqual([false, 'none']);
    free = 220_000_000;
    await vi.waitFor(() => expect(ballast.isThere()).toBe(true));
    expect(care.read().ballast).toBe('there');
    // That it is there is no news.
    expect(sent).toEqual([]);
    free = 0;
    ballast.free();
    await vi.waitFor(() => expect(sent).toEqual(['care.changed given-up']));
    free = 220_000_000;
    await vi.waitFor(() => expect(sent).toEqual(['care.changed given-up', 'care.changed there']));
    await care.close();
  });
});
