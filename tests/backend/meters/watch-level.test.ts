import { expect, it } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import type { Meter } from '../../../electron/backend/meters/meter-shop.ts';
import { openTestPty } from '../../support/pty.ts';

const never = new AbortController().signal;
const simulated = () => createMeterShop({ now: () => new Date() }).connect({ kind: 'simulated' }, never);

async function watched(meter: Meter, count: number, stop = new AbortController()): Promise<number[]> {
  const atMs: number[] = [];
  for await (const { frequencyMhz, meterDbmv } of meter.watchLevel(711, stop.signal)) {
    expect(frequencyMhz).toBe(711);
    expect(meterDbmv).not.toBeNull();
    atMs.push(performance.now());
    if (atMs.length === count) stop.abort();
  }
  return atMs;
}

it('reads one frequency over and over, at most 20 times a second, until it is stopped', async () => {
  const meter = await simulated();
  const atMs = await watched(meter, 12);
  expect(atMs.length).toBe(12);
  const perReadingMs = ((atMs.at(-1) ?? 0) - (atMs[0] ?? 0)) / 11;
  // A timer may fire up to a millisecond early.
  expect(perReadingMs).toBeGreaterThan(49);
  // The meter is free again afterwards.
  expect((await meter.readLevels([57], never).next()).value?.frequencyMhz).toBe(57);
  await meter.close();
});

it('lets nobody else read meanwhile a reading is on its way', async () => {
  const meter = await simulated();
  const stop = new AbortController();
  const first = meter.watchLevel(711, stop.signal).next();
  await expect(meter.readLevels([57], never).next()).rejects.toThrow(/two plans/);
  expect((await first).value?.frequencyMhz).toBe(711);
  await meter.close();
});

it('ends in a fault of the meter when the cable is pulled', async () => {
  const pty = await openTestPty();
  const meter = await createMeterShop({ now: () => new Date() }).connect(
    { kind: 'serial', path: pty.path, profile: 'scpi' },
    never,
  );
  const reading = (async () => {
    let count = 0;
    for await (const _ of meter.watchLevel(711, never)) if (++count === 3) void pty.unplug();
  })();
  await expect(reading).rejects.toMatchObject({ name: 'MeterFault' });
  await meter.close();
});
