import { expect, it } from 'vitest';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { SLEPT } from '../../../electron/backend/services/sleep.ts';
import { joined } from './joined.ts';

const serial = { kind: 'serial', path: '/dev/scripted', profile: 'scripted' } as const;

async function bench(script: NonNullable<Parameters<typeof joined>[0]>['script'] = {}) {
  const waits: number[] = [];
  const one = await joined({
    script,
    gainControl: {
      restAfterWaking: async (ms) => {
        waits.push(ms);
      },
      watchPace: { retryMs: 5 },
    },
  });
  await one.handlers['meters.connect'](serial, one.signal);
  const changes = () => one.sent.flatMap((event) => (event.name === 'meter.changed' ? [event.data] : []));
  const current = async () => (await one.handlers['meters.current']({}, one.signal)).meter;
  return { ...one, waits, changes, current };
}

it('keeps a running sweep as partial with everything that was read, and closes the port', async () => {
  const one = await bench({ stepped: true });
  const sweepId = await one.start(6);
  one.meter().release(3);
  await one.until(() => one.readCount() === 3);
  const meter = one.meter();
  await one.sleep.suspend();
  expect(await one.endOf(sweepId)).toMatchObject({ state: 'partial', readingCount: 3, reason: SLEPT });
  expect((await one.open(sweepId)).readings).toHaveLength(3);
  expect(meter.closed()).toBe(true);
  expect(one.changes().at(-1)).toMatchObject({ meter: null, lost: expect.stringContaining('sleep') });
  expect(await one.current()).toBeNull();
});

it('rests 2 s after waking, connects the same meter and asks who it is', async () => {
  const one = await bench();
  const before = await one.current();
  await one.sleep.suspend();
  const sessions = one.shop.connected.length;
  await one.sleep.resume();
  expect(one.waits).toEqual([2000]);
  expect(one.shop.connected.length).toBe(sessions + 1);
  expect(await one.current()).toMatchObject({ choice: serial, identity: before?.identity });
  expect(one.changes().at(-1)?.meter?.choice).toEqual(serial);
  const sweepId = await one.start(3);
  expect(await one.endOf(sweepId)).toMatchObject({ state: 'complete' });
});

it('says why where the meter does not come back', async () => {
  const one = await bench();
  await one.sleep.suspend();
  one.shop.refuseNext(new MeterFault('silent', '/dev/scripted', 'switch it on'));
  await one.sleep.resume();
  expect(one.changes().at(-1)).toEqual({ meter: null, lost: '/dev/scripted: switch it on' });
  expect(await one.current()).toBeNull();
});

it('ends a live level, and has nothing to do where nothing is connected', async () => {
  const one = await bench();
  const { liveId } = await one.handlers['live.start'](
    { stationId: 'slipway', visitId: null, portName: 'forward output', frequencyMhz: 711 },
    one.signal,
  );
  await one.until(() => one.sent.some(({ name }) => name === 'live.reading'));
  await one.sleep.suspend();
  const ended = one.sent.find((event) => event.name === 'live.ended');
  expect(ended?.data).toMatchObject({ liveId, reason: SLEPT });
  await one.sleep.resume();
  await one.handlers['meters.disconnect']({}, one.signal);
  const count = one.changes().length;
  const sessions = one.shop.connected.length;
  await one.sleep.suspend();
  await one.sleep.resume();
  expect([one.changes().length, one.shop.connected.length]).toEqual([count, sessions]);
});

it('does the two in their order, however fast they follow, and leaves another choice alone', async () => {
  const one = await bench();
  await Promise.all([one.sleep.suspend(), one.sleep.resume()]);
  expect(await one.current()).toMatchObject({ choice: serial });
  await one.sleep.suspend();
  await one.handlers['meters.connect']({ kind: 'simulated' }, one.signal);
  await one.sleep.resume();
  expect(await one.current()).toMatchObject({ choice: { kind: 'simulated' } });
});

it('lets an unattended watch wait until the computer is awake, and go on by itself', async () => {
  const one = await bench();
  const { watchId } = await one.handlers['watch.start'](
    {
      stationId: 'slipway',
      visitId: null,
      portName: 'forward output',
      frequenciesMhz: [711],
      pilotMhz: null,
      everyS: 0.04,
      forS: null,
      ambientC: null,
    },
    one.signal,
  );
  const rounds = () => one.sent.filter(({ name }) => name === 'watch.round').length;
  await one.until(() => rounds() === 1);
  await one.sleep.suspend();
  const sessions = one.shop.connected.length;
  one.clock.forward(40);
  await new Promise((resolve) => setTimeout(resolve, 60));
  expect([one.shop.connected.length, rounds()]).toEqual([sessions, 1]);
  await one.sleep.resume();
  await one.until(() => rounds() === 2);
  expect(one.shop.connected.length).toBe(sessions + 1);
  const { rounds: kept } = await one.handlers['watch.open']({ watchId }, one.signal);
  expect(kept.map(({ gap }) => gap)).toEqual([null, null]);
  await one.handlers['watch.stop']({ watchId }, one.signal);
});
