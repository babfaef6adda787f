import { expect, it } from 'vitest';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { joined, refusalOf } from './joined.ts';

const serial = { kind: 'serial', path: '/dev/ttyUSB0', profile: 'scripted' } as const;
const changes = (bench: Awaited<ReturnType<typeof joined>>) =>
  bench.sent.flatMap((event) => (event.name === 'meter.changed' ? [event.data] : []));

it('puts the first meter away when another is chosen', async () => {
  const bench = await joined();
  const connected = await bench.handlers['meters.connect'](serial, bench.signal);
  expect(bench.shop.connected.map((meter) => meter.closed())).toEqual([true, false]);
  expect(changes(bench).at(-1)).toEqual({ meter: connected, lost: null });
  // The one put away is nobody's any more: when it goes, nothing is said.
  bench.shop.connected[0]?.lose(new MeterFault('lost', 'old', 'old'));
  await bench.until(() => true);
  expect(await bench.handlers['meters.current']({}, bench.signal)).toEqual({ meter: connected });
});

it('says that there is none when the next does not answer', async () => {
  const bench = await joined();
  bench.shop.refuseNext(new MeterFault('silent', '/dev/ttyUSB0', 'switch it on'));
  expect(await refusalOf(() => bench.handlers['meters.connect'](serial, bench.signal))).toMatchObject({
    code: 'silent',
    help: 'switch it on',
  });
  expect(await bench.handlers['meters.current']({}, bench.signal)).toEqual({ meter: null });
  expect(changes(bench).at(-1)).toEqual({ meter: null, lost: null });
  await bench.handlers['meters.connect'](serial, bench.signal);
});

it('tells when the meter is lost between two sweeps', async () => {
  const bench = await joined();
  bench.meter().lose(new MeterFault('lost', '/dev/ttyUSB0', 'plug it in again'));
  await bench.until(() => changes(bench).some(({ meter }) => meter === null));
  expect(changes(bench).at(-1)).toEqual({ meter: null, lost: 'plug it in again' });
  expect(bench.meter().closed()).toBe(true);
  expect(await bench.handlers['meters.current']({}, bench.signal)).toEqual({ meter: null });
});

it('connects one at a time', async () => {
  const bench = await joined();
  const [first, second] = await Promise.allSettled([
    bench.handlers['meters.connect'](serial, bench.signal),
    bench.handlers['meters.connect'](serial, bench.signal),
  ]);
  expect([first.status, second.status]).toEqual(['fulfilled', 'rejected']);
  expect(bench.shop.connected).toHaveLength(2);
});

it('is put away on purpose without a word of loss', async () => {
  const bench = await joined();
  await bench.handlers['meters.disconnect']({}, bench.signal);
  await bench.handlers['meters.disconnect']({}, bench.signal);
  expect(changes(bench).slice(1)).toEqual([{ meter: null, lost: null }]);
});
