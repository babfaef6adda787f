import { expect, it } from 'vitest';
import type { WatchRound, WatchSummary } from '../../../core/bridge/watch-calls.ts';
import { createWorkbenchStore } from '../../../renderer/state/store.ts';
import type { OpenWatch } from '../../../renderer/state/watch-slice.ts';
import { viewWatch } from '../../../renderer/state/watch-view.ts';
import { benchOver } from '../bench-over.ts';
import { station } from '../sheet-records.ts';

const watchId = '00000000-0000-4000-8000-000000000009';
const startMs = Date.parse('2026-11-25T00:00:00.000Z');
const HOUR_MS = 3_600_000;
const moment = (hours: number) => new Date(startMs + hours * HOUR_MS).toISOString();
const watch = (over: Partial<WatchSummary> = {}): WatchSummary => ({
  watchId,
  stationId: station.id,
  visitId: null,
  portName: 'forward output',
  testPointLossDb: 20,
  frequenciesMhz: [57, 711],
  pilotMhz: 711,
  everyS: 6 * 3600,
  forS: 24 * 3600,
  startedAt: moment(0),
  state: 'running',
  endedAt: null,
  endReason: null,
  roundCount: 2,
  missedCount: 0,
  meter: {
    choice: { kind: 'simulated' },
    identity: { maker: 'm', model: 'n', serialNumber: '1', firmware: '1' },
  },
  ...over,
});
const read = (round: number, pilotDbmv: number): WatchRound => ({
  round,
  rounds: 1,
  at: moment(round * 6),
  gap: null,
  levels: [
    { frequencyMhz: 57, meterDbmv: 16 },
    { frequencyMhz: 711, meterDbmv: pilotDbmv - 20 },
  ],
});
const gap = (round: number, rounds: number): WatchRound => ({
  round,
  rounds,
  at: moment(round * 6),
  gap: 'the meter was gone',
  levels: [],
});
const open = (rounds: readonly WatchRound[], over: Partial<OpenWatch> = {}): OpenWatch => ({
  watch: watch(),
  rounds,
  temperatures: [],
  ...over,
});

it('plans the 24-hour test at six-hour steps as five rounds, both ends included', () => {
  const view = viewWatch(open([read(0, 44)]), station);
  expect(view.plannedRounds).toBe(5);
  expect(view.toMs - view.fromMs).toBe(24 * HOUR_MS);
});

it('keeps a gap a gap: as long as its rounds, with its reason, and no level in it', () => {
  const view = viewWatch(open([read(0, 44), gap(1, 2), read(3, 44.2)]), station);
  expect(view.gaps).toEqual([
    { fromMs: startMs + 6 * HOUR_MS, toMs: startMs + 18 * HOUR_MS, rounds: 2, why: 'the meter was gone' },
  ]);
  const pilot = view.lines.find(({ isPilot }) => isPilot);
  expect(pilot?.points.map(({ levelDbmv }) => levelDbmv)).toEqual([44, null, 44.2]);
  expect(pilot?.firstDbmv).toBe(44);
});

it('puts each level at the temperature between two notes', () => {
  const view = viewWatch(
    open([read(0, 44), read(1, 44), read(2, 44)], {
      temperatures: [
        { at: moment(0), ambientC: -10 },
        { at: moment(12), ambientC: 20 },
      ],
    }),
    station,
  );
  expect(view.lines[1]?.points.map(({ ambientC }) => ambientC)).toEqual([-10, 5, 20]);
});

it('tells how much of the swing the control took out: all of it where the level stood still', () => {
  const span = { lossDb: 22, topMhz: 870, perDegreeC: 0.002, sky: 'aerial' as const };
  const temperatures = [
    { at: moment(0), ambientC: -10 },
    { at: moment(12), ambientC: 20 },
  ];
  const still = viewWatch(open([read(0, 44), read(1, 44), read(2, 44)], { temperatures }), {
    ...station,
    span,
  });
  expect(still.swing?.takenOut).toBeCloseTo(1, 9);
  // 22 dB at 870 MHz is 22 sqrt(711/870) at the pilot; 0.002 a degree over 30 degrees.
  expect(still.swing?.withoutControlDb).toBeCloseTo(-22 * Math.sqrt(711 / 870) * 0.06, 9);
});

it('takes rounds as they come, counts the missed ones, and none of another watch', () => {
  const store = createWorkbenchStore();
  store.getState().watchArrived(station.id, open([read(0, 44)]), [watch()]);
  store.getState().watchRoundCame(watchId, gap(1, 2));
  store.getState().watchRoundCame(watchId, read(3, 44));
  store.getState().watchRoundCame('00000000-0000-4000-8000-000000000008', read(4, 40));
  const { watching } = store.getState();
  if (watching.at !== 'open') throw new Error('no watch');
  expect(watching.rounds.map(({ round }) => round)).toEqual([0, 1, 3]);
  expect([watching.watch.roundCount, watching.watch.missedCount]).toEqual([4, 2]);
});

it('opens the running watch first, and an older one when it is asked for, without losing the list', async () => {
  const olderId = '00000000-0000-4000-8000-000000000007';
  const older = watch({ watchId: olderId, state: 'complete', startedAt: moment(-48) });
  const newest = watch({ watchId: '00000000-0000-4000-8000-000000000006', state: 'stopped' });
  const running = watch();
  const watches = [newest, running, older];
  const { store, workbench, emit } = benchOver({
    'watch.list': () => ({ watches }),
    'watch.open': ({ watchId: asked }) => ({
      watch: watches.find((one) => one.watchId === asked) ?? newest,
      rounds: [read(0, 44)],
      temperatures: [],
    }),
  });
  const shown = () => {
    const { watching } = store.getState();
    if (watching.at !== 'open') throw new Error('no watch');
    return watching;
  };
  await workbench.openWatch(station.id);
  expect(shown().watch.watchId).toBe(watchId);
  await workbench.openWatch(station.id, olderId);
  expect(shown().watch.watchId).toBe(olderId);
  // The running one ends meanwhile: the older one stays on the screen, and the list knows.
  emit('watch.ended', { watch: watch({ state: 'complete' }) });
  expect(shown().watch.watchId).toBe(olderId);
  expect(shown().watches.map(({ state }) => state)).toEqual(['stopped', 'complete', 'complete']);
});
