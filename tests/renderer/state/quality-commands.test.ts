import { describe, expect, it } from 'vitest';
import type { StationHistory } from '../../../core/bridge/quality-calls.ts';
import { dayBegins, OVERLAID } from '../../../renderer/state/quality-commands.ts';
import { benchOver } from '../bench-over.ts';
import type { Script } from '../scripted-client.ts';
import { station, sweepOf } from '../sheet-records.ts';

function bench(script: Script) {
  const over = benchOver(script);
  return { ...over, state: over.store.getState };
}
const made = Array.from({ length: OVERLAID + 3 }, (_, n) => sweepOf({ n: n + 1, offDb: () => 0 }));
const history: StationHistory = {
  station,
  portName: 'forward output',
  portNames: ['forward output'],
  reserves: [],
  sweeps: made.map(({ summary }, n) => ({
    sweepId: summary.sweepId,
    visitId: summary.visitId,
    at: new Date(Date.UTC(2020, n, 1)).toISOString(),
    purpose: 'as-found',
    operator: '',
    ambientC: null,
    revision: 1,
    pluggedIn: {},
    figures: null,
    why: null,
    reserveDb: null,
  })),
};
const script: Script = {
  'quality.history': () => history,
  'sweeps.open': ({ sweepId }) => {
    const found = made.find(({ summary }) => summary.sweepId === sweepId);
    if (found === undefined) throw new Error('no such sweep');
    return found;
  },
};

describe('a history', () => {
  it('is opened with as many of its newest sweeps as are laid over each other', async () => {
    const { workbench, state, names } = bench(script);
    await workbench.openHistory(station.id, null);
    const { history: open } = state();
    expect(open.at === 'open' && Object.keys(open.sweeps)).toHaveLength(OVERLAID);
    expect(names().filter((name) => name === 'sweeps.open')).toHaveLength(OVERLAID);
  });
  it('that comes when somebody has gone on is let go', async () => {
    let answer: (history: StationHistory) => void = () => {};
    const { workbench, state } = bench({
      ...script,
      'quality.history': ({ stationId }) =>
        stationId === 'slow'
          ? new Promise((resolve) => {
              answer = resolve;
            })
          : history,
    });
    const slow = workbench.openHistory('slow', null);
    await workbench.openHistory(station.id, null);
    answer({ ...history, portName: 'return' });
    await slow;
    const { history: open } = state();
    expect(open.at === 'open' && open.history.portName).toBe('forward output');
  });
  it('says why it could not be read', async () => {
    const { workbench, state } = bench({});
    await workbench.openHistory(station.id, null);
    expect(state().history).toMatchObject({ at: 'failed', stationId: station.id });
  });
});

describe('two sweeps', () => {
  it('are compared the earlier first, whichever was picked first, and only what is missing is fetched', async () => {
    const { workbench, state, names } = bench(script);
    await workbench.openHistory(station.id, null);
    const [oldest = '', newest = ''] = [made[0], made.at(-1)].map((sweep) => sweep?.summary.sweepId);
    await workbench.compareTwo([newest, oldest]);
    expect(state().history).toMatchObject({ compared: [oldest, newest] });
    expect(names().filter((name) => name === 'sweeps.open')).toHaveLength(OVERLAID + 1);
    await workbench.compareTwo(null);
    expect(state().history).toMatchObject({ compared: null });
  });
});

describe('the table of all records', () => {
  it('is not written to by a look that somebody left', async () => {
    let answer: () => void = () => {};
    const { workbench, state } = bench({
      'quality.stations': async () => {
        await new Promise<void>((resolve) => {
          answer = resolve;
        });
        return { stations: [], total: 7, next: null };
      },
    });
    const looked = workbench.openRecords();
    workbench.closeRecords();
    answer();
    await looked;
    expect(state().records.total).toBeNull();
    expect(state().recordsAt).toBe('closed');
  });
  it('keeps what came when the rest fails, and says so', async () => {
    const { workbench, state } = bench({
      'quality.stations': ({ after }) => {
        if (after > 0) throw new Error('the disk is gone');
        return { stations: [], total: 2, next: 1 };
      },
    });
    await workbench.openRecords();
    expect(state().records).toMatchObject({ total: 2, reading: { at: 'failed', help: 'the disk is gone' } });
  });
});

describe('a period', () => {
  it('is asked for from the first midnight to the one after the last day', async () => {
    const { workbench, asked } = bench({});
    await workbench.readPeriod('2026-03-01', '2026-03-07');
    expect(asked).toEqual([
      {
        name: 'quality.period',
        input: {
          from: new Date(2026, 2, 1).toISOString(),
          to: new Date(2026, 2, 8).toISOString(),
        },
      },
    ]);
  });
  it.each([
    ['', '2026-03-07'],
    ['2026-03-08', '2026-03-07'],
  ])('is not asked for from "%s" to "%s"', async (from, to) => {
    const { workbench, asked, state } = bench({});
    await workbench.readPeriod(from, to);
    expect(asked).toEqual([]);
    expect(state().period.found).toMatchObject({ at: 'failed', help: expect.stringContaining('two days') });
  });
  it('begins at the midnight of this place', () => {
    expect(dayBegins('2026-03-31', 1)).toBe(new Date(2026, 3, 1).toISOString());
    expect(dayBegins('no day', 0)).toBeNull();
    expect(dayBegins('1950-01-01', 0)).toBeNull();
  });
});
