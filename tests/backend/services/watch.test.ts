import { describe, expect, it } from 'vitest';
import type { EventData, Input } from '../../../core/bridge/contract.ts';
import type { WatchRound } from '../../../core/bridge/watch-calls.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { createFakeMeterShop } from '../../support/fake-meter.ts';
import { joined, refusalOf } from './joined.ts';

type Bench = Awaited<ReturnType<typeof joined>>;
const gainControl = { watchPace: { retryMs: 5 } };
const HOUR = 3_600_000;
const plan: Input<'watch.start'> = {
  stationId: 'slipway',
  visitId: null,
  portName: 'forward output',
  frequenciesMhz: [711, 54],
  pilotMhz: 711,
  everyS: 0.04,
  forS: null,
  ambientC: null,
};

const startOf = (bench: Bench, more: Partial<typeof plan> = {}) =>
  bench.handlers['watch.start']({ ...plan, ...more }, bench.signal);
const roundsOf = (bench: Bench): WatchRound[] =>
  bench.sent.flatMap((event) =>
    event.name === 'watch.round' ? [(event.data as EventData<'watch.round'>).round] : [],
  );
const openOf = (bench: Bench, watchId: string) => bench.handlers['watch.open']({ watchId }, bench.signal);
const endOf = (bench: Bench) =>
  bench.until(() => {
    const end = bench.sent.find(({ name }) => name === 'watch.ended');
    return end === undefined ? false : (end.data as EventData<'watch.ended'>).watch;
  });
/** The clock goes on by so much, and the watch does what is due. */
async function pass(bench: Bench, ms: number, rounds: number): Promise<void> {
  const before = roundsOf(bench).length;
  bench.clock.forward(ms);
  await bench.until(() => roundsOf(bench).length >= before + rounds);
}

describe('a watch', () => {
  it('reads its frequencies when they are due, keeps them, and tells of them', async () => {
    const bench = await joined({ gainControl, script: { levelDbmv: (mhz) => mhz / 100 } });
    const watch = await startOf(bench, { ambientC: 12 });
    expect(watch).toMatchObject({
      state: 'running',
      everyS: 0.04,
      meter: { identity: { model: 'Scripted' } },
    });
    await bench.until(() => roundsOf(bench).length === 1);
    await pass(bench, 40, 1);
    expect(roundsOf(bench).map(({ round, gap }) => [round, gap])).toEqual([
      [0, null],
      [1, null],
    ]);
    expect(await bench.handlers['watch.stop']({ watchId: watch.watchId }, bench.signal)).toMatchObject({
      state: 'stopped',
      endReason: null,
      roundCount: 2,
      missedCount: 0,
    });
    const kept = await openOf(bench, watch.watchId);
    expect(kept.rounds).toEqual(roundsOf(bench));
    expect(kept.rounds[1]?.levels).toEqual([
      { frequencyMhz: 711, meterDbmv: 7.11 },
      { frequencyMhz: 54, meterDbmv: 0.54 },
    ]);
    expect(kept.temperatures).toMatchObject([{ ambientC: 12 }]);
  });

  // The 24-hour test at six-hour steps: common practice, no published source.
  it('of a day at six-hour steps has five rounds and then is complete', async () => {
    const bench = await joined({ gainControl });
    const { watchId } = await startOf(bench, { everyS: 6 * 3600, forS: 24 * 3600 });
    // Its own timers are hours long; each start of the program looks at the clock anew.
    await bench.until(() => roundsOf(bench).length === 1);
    await bench.close();
    for (let k = 1; k <= 4; k++) {
      bench.clock.forward(6 * HOUR);
      const shop = createFakeMeterShop({ now: bench.clock.now });
      const again = createHandlers({ ...bench, ...gainControl, shop, host: 'memory', version: '0' });
      await bench.until(() => roundsOf(bench).length === k + 1);
      if (k === 4) await endOf(bench);
      await again.close();
    }
    const { watch, rounds } = await openOf(bench, watchId);
    expect(watch).toMatchObject({ state: 'complete', endReason: null, roundCount: 5, missedCount: 0 });
    expect(rounds.every(({ gap }) => gap === null)).toBe(true);
  });

  it('shows a lost meter as a gap with its reason, connects again by itself, and goes on', async () => {
    const bench = await joined({ gainControl });
    const { watchId } = await startOf(bench);
    await bench.until(() => roundsOf(bench).length === 1);
    bench.shop.refuseNext(new MeterFault('no-such-port', '/dev/scripted', 'the cable is out'));
    bench.meter().lose(new MeterFault('lost', '/dev/scripted', 'plug it in again'));
    await bench.until(() =>
      bench.sent.some(({ name, data }) => name === 'meter.changed' && 'lost' in data && data.lost !== null),
    );
    bench.clock.forward(40);
    // The first try to connect is refused; the round stays due until the next one is.
    await bench.until(() => bench.shop.connected.length === 2 || roundsOf(bench).length > 1);
    bench.shop.refuseNext(new MeterFault('no-such-port', '/dev/scripted', 'the cable is out'));
    await bench.until(() => roundsOf(bench).length >= 2);
    await pass(bench, 40, 1);
    const { rounds, watch } = await openOf(bench, watchId);
    expect(rounds.at(-1)?.gap).toBeNull();
    expect(watch.roundCount).toBe(rounds.reduce((sum, { rounds: count }) => sum + count, 0));
    await bench.close();
  });

  it('marks every round that a meter lost for long did not give', async () => {
    let gone = false;
    const bench = await joined({
      gainControl,
      script: {
        levelDbmv: () => (gone ? new MeterFault('silent', 'meter', 'switch it on') : 20),
      },
    });
    const { watchId } = await startOf(bench);
    await bench.until(() => roundsOf(bench).length === 1);
    gone = true;
    // Due now and tried; past for good once the next is due.
    for (let k = 0; k < 3; k++) {
      bench.clock.forward(40);
      await new Promise((resolve) => setTimeout(resolve, 60));
    }
    gone = false;
    await bench.until(() => roundsOf(bench).at(-1)?.gap === null && roundsOf(bench).length > 1);
    const { rounds, watch } = await openOf(bench, watchId);
    const gaps = rounds.filter(({ gap }) => gap !== null);
    expect(gaps.length).toBeGreaterThan(0);
    expect(gaps.every(({ gap, levels }) => gap === 'meter: switch it on' && levels.length === 0)).toBe(true);
    expect(watch.missedCount).toBe(2);
    expect(rounds.at(-1)?.levels.map(({ meterDbmv }) => meterDbmv)).toEqual([20, 20]);
    await bench.close();
  });

  it('takes sleep for one gap', async () => {
    const bench = await joined({ gainControl });
    await startOf(bench);
    await bench.until(() => roundsOf(bench).length === 1);
    await pass(bench, 40 * 10, 2);
    expect(roundsOf(bench).slice(1)).toMatchObject([
      { round: 1, rounds: 9, gap: 'the computer slept or stood still' },
      { round: 10, gap: null },
    ]);
    await bench.close();
  });

  it('leaves the meter to a sweep, and says which rounds that took', async () => {
    const bench = await joined({ gainControl, script: { stepped: true } });
    await startOf(bench);
    bench.meter().release(2);
    await bench.until(() => roundsOf(bench).length === 1);
    const sweepId = await bench.start();
    bench.clock.forward(40);
    await new Promise((resolve) => setTimeout(resolve, 120));
    bench.clock.forward(40);
    await bench.until(() => roundsOf(bench).length === 2);
    bench.meter().release(6);
    expect((await bench.endOf(sweepId)).state).toBe('complete');
    bench.meter().release(2);
    await bench.until(() => roundsOf(bench).length === 3);
    expect(roundsOf(bench)).toMatchObject([
      { round: 0, gap: null },
      { round: 1, gap: 'a sweep had the meter' },
      { round: 2, gap: null },
    ]);
    await bench.close();
  });

  it('is not begun twice, nor over a frequency named twice, nor with a pilot that it does not read', async () => {
    const bench = await joined({ gainControl });
    expect(await refusalOf(() => startOf(bench, { frequenciesMhz: [54, 54], pilotMhz: null }))).toMatchObject(
      {
        code: 'twice',
      },
    );
    expect(await refusalOf(() => startOf(bench, { pilotMhz: 600 }))).toMatchObject({
      code: 'pilot-not-watched',
    });
    await startOf(bench);
    expect(await refusalOf(() => startOf(bench))).toMatchObject({ code: 'watch-running' });
    expect(await refusalOf(() => bench.handlers['meters.disconnect']({}, bench.signal))).toMatchObject({
      code: 'watch-running',
    });
    await bench.close();
  });

  it('takes the temperature of the air while it runs, and not after', async () => {
    const bench = await joined({ gainControl });
    const { watchId } = await startOf(bench);
    await bench.handlers['watch.temperature']({ watchId, ambientC: -4 }, bench.signal);
    await bench.handlers['watch.stop']({ watchId }, bench.signal);
    expect(
      await refusalOf(() => bench.handlers['watch.temperature']({ watchId, ambientC: 1 }, bench.signal)),
    ).toMatchObject({ code: 'watch-ended' });
    expect((await openOf(bench, watchId)).temperatures).toMatchObject([{ ambientC: -4 }]);
  });
});

describe('a watch that the program left running', () => {
  async function leftFor(ms: number, more: Partial<typeof plan>) {
    const bench = await joined({ gainControl });
    const { watchId } = await startOf(bench, more);
    await bench.until(() => roundsOf(bench).length === 1);
    await bench.close();
    expect(bench.sent.some(({ name }) => name === 'watch.ended')).toBe(false);
    bench.clock.forward(ms);
    const shop = createFakeMeterShop({ now: bench.clock.now });
    const again = createHandlers({ ...bench, ...gainControl, shop, host: 'memory', version: '0' });
    return { bench, watchId, again };
  }

  it('is gone on with, connects its meter, and keeps the time between as a gap', async () => {
    const { bench, watchId, again } = await leftFor(5 * HOUR, { everyS: 3600, forS: 86_400 });
    await bench.until(() => roundsOf(bench).length === 3);
    const { rounds, watch } = await openOf(bench, watchId);
    expect(rounds).toMatchObject([
      { round: 0, gap: null },
      { round: 1, rounds: 4, gap: 'the program was not running' },
      { round: 5, gap: null },
    ]);
    expect(watch.state).toBe('running');
    await again.close();
  });

  it('is cut short where its end has passed unseen, and says so', async () => {
    const { bench, watchId, again } = await leftFor(90 * HOUR, { everyS: 3600, forS: 86_400 });
    expect(await endOf(bench)).toMatchObject({
      watchId,
      state: 'cut-short',
      endReason: 'the program was not running when it was to end',
      roundCount: 25,
      missedCount: 24,
    });
    await again.close();
  });

  it('without an end is not taken up after more than a day', async () => {
    const { bench, again } = await leftFor(30 * HOUR, { everyS: 3600 });
    expect(await endOf(bench)).toMatchObject({ state: 'cut-short', roundCount: 1 });
    await again.close();
  });
});
