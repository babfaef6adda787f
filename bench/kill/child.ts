import { randomUUID } from 'node:crypto';
import { writeSync } from 'node:fs';
import { flushCompileCache } from 'node:module';
import { text } from 'node:stream/consumers';
import { steps } from '../../electron/backend/archive/migrate.ts';
import { openArchive } from '../../electron/backend/archive/open.ts';
import { restoreArchive } from '../../electron/backend/archive/restore.ts';
import { createHandlers } from '../../electron/backend/handlers.ts';
import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../electron/backend/meters/lines-over-bytes.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { wireToInstrument } from '../../electron/backend/meters/simulated/link.ts';
import { createChance } from '../../tests/support/chance.ts';
import { heavyWork } from './heavy-work.ts';
import { recordWork } from './record-work.ts';
import type { Order, Place, Said } from './said.ts';
import { killSession } from './session.ts';
import { sweepWork } from './sweep-work.ts';
import { toldSteps, watchedArchive } from './watched-archive.ts';
import { createQuiet, type Work } from './work.ts';

/*
 * A program of its own that works on an archive with the real services until it is killed. It waits for its order on
 * standard input; each line on standard output is what it has acknowledged, or the work that it is in.
 */
const tell = (said: Said): void => {
  writeSync(1, `${JSON.stringify(said)}\n`);
};
const entered = new Set<Place>();
const enter = (place: Place, step?: number): void => {
  entered.add(place);
  tell({ say: 'in', place, ...(step === undefined ? {} : { step }) });
};
const leave = (place: Place): void => {
  if (entered.delete(place)) tell({ say: 'out', place });
};

// What the workbench waits minutes for, the daily backup's turn among it, takes a fraction of a second here.
const PATIENCE_MS = 60_000;
const HURRY = 200;
const realTimeout = globalThis.setTimeout;
const hurried = (work: () => void, afterMs = 0) =>
  realTimeout(work, afterMs >= PATIENCE_MS ? afterMs / HURRY : afterMs);
globalThis.setTimeout = hurried as typeof setTimeout;

// For the next program: this one is not going to end in a way that keeps what was compiled.
flushCompileCache();
const order = JSON.parse(await text(process.stdin)) as Order;
const chance = createChance(order.seed);
const startedAt = performance.now();
const now = () => new Date(Math.round(order.nowMs + performance.now() - startedAt));

if (order.task === 'restore') {
  enter('restoring a backup');
  const { folder, from, nowMs } = order;
  await restoreArchive({ folder, from, nowMs, signal: new AbortController().signal });
  tell({ say: 'restored' });
  leave('restoring a backup');
  process.exit(0);
}

enter('opening the archive');
const archive = openArchive({
  folder: order.folder,
  session: killSession(order.nowMs),
  steps: toldSteps(steps, { enter, leave }),
});
leave('linking the records of an older archive');
leave('opening the archive');

const sweepHeard: { ended: (state: 'complete' | 'partial', count: number) => void } = {
  ended: () => undefined,
};
let byHand = false;
const { handlers } = createHandlers({
  archive: watchedArchive(archive, {
    enter(place) {
      if (place === 'copying a backup' && !byHand) enter('the daily backup');
      enter(place);
    },
    leave,
  }),
  emit(name, data) {
    if (name === 'sweep.reading' && 'reading' in data) {
      const { meterDbmv } = data.reading;
      const level = meterDbmv === null ? null : Math.round(meterDbmv * 1000);
      tell({ say: 'reading', sweepId: data.sweepId, index: data.index, level });
    }
    if (name === 'sweep.ended' && 'state' in data && data.state !== 'recording')
      sweepHeard.ended(data.state, data.readingCount);
  },
  now,
  newId: randomUUID,
  log: {
    info(facts, words) {
      if (words !== 'backup made' || typeof facts.path !== 'string') return;
      tell({ say: 'backup', path: facts.path });
      leave('naming a backup, letting older ones go');
      leave('the daily backup');
    },
    warn: (facts, words) => {
      throw new Error(`${words}: ${JSON.stringify(facts)}`);
    },
    error: (facts, words) => {
      throw new Error(`${words}: ${JSON.stringify(facts)}`);
    },
  },
  shop: createMeterShop({
    now,
    find: async () => ({ ports: [], problem: null }),
    openSerial: async (path, { lines }) => {
      const source = () => Math.round(chance() * 400 - 100) / 10;
      const pace = { messageMs: 0, readingMs: Math.floor(chance() * 3) };
      return createLineLink(path, lines, wireToInstrument(new LineInstrument({ source }), pace));
    },
  }),
  host: 'memory',
  version: '0.1.0',
});

const work: Work = {
  ...{ call: handlers, chance, tell, enter, leave, order, sweepHeard, quiet: createQuiet() },
  signal: new AbortController().signal,
  head: () => tell({ say: 'head', ...archive.head() }),
  async handed(make) {
    byHand = true;
    try {
      return await make();
    } finally {
      byHand = false;
    }
  },
};
work.head();
await Promise.all([sweepWork(work), recordWork(work), heavyWork(work)]);
