import { expect, it } from 'vitest';
import { MeterFault } from '../../../electron/backend/meters/meter-shop.ts';
import { joined, refusalOf } from './joined.ts';

it('tells of a reading only when it is on disk', async () => {
  const bench = await joined();
  const sweepId = await bench.start(40);
  await bench.endOf(sweepId);
  const { readings } = await bench.open(sweepId);
  expect(readings).toHaveLength(40);
  expect(bench.readCount()).toBe(40);
});

it('returns the id before the first reading is told', async () => {
  const bench = await joined();
  await bench.start();
  expect(bench.readCount()).toBe(0);
});

it('is partial with what was read when it is stopped by hand', async () => {
  const bench = await joined({ script: { stepped: true } });
  const sweepId = await bench.start();
  bench.meter().release(3);
  await bench.until(() => bench.readCount() === 3);
  expect((await bench.open(sweepId)).summary).toMatchObject({
    state: 'recording',
    readingCount: 3,
    endedAt: null,
  });
  await bench.handlers['sweeps.stop']({ sweepId }, bench.signal);
  expect(await bench.endOf(sweepId)).toMatchObject({
    state: 'partial',
    readingCount: 3,
    reason: 'stopped by hand',
  });
  expect((await bench.open(sweepId)).summary).toMatchObject({
    state: 'partial',
    endReason: 'stopped by hand',
  });
  // Stopping what has ended is no mistake, and the meter takes the next sweep.
  await bench.handlers['sweeps.stop']({ sweepId }, bench.signal);
  bench.meter().release(6);
  expect(await bench.endOf(await bench.start(2))).toMatchObject({ state: 'complete', reason: null });
});

it('goes on when the client that asked for it goes away', async () => {
  const bench = await joined({ script: { stepped: true } });
  const gone = new AbortController();
  const { sweepId } = await bench.handlers['sweeps.start'](
    { visitId: bench.visit.visitId, portName: 'forward output', purpose: 'check', frequenciesMhz: [54, 60] },
    gone.signal,
  );
  bench.meter().release(1);
  await bench.until(() => bench.readCount() === 1);
  gone.abort();
  bench.meter().release(1);
  expect(await bench.endOf(sweepId)).toMatchObject({ state: 'complete', readingCount: 2 });
});

it('is partial when the meter is lost, says what would help, and the next meter goes on', async () => {
  const bench = await joined({ script: { stepped: true } });
  const sweepId = await bench.start();
  bench.meter().release(2);
  await bench.until(() => bench.readCount() === 2);
  bench.meter().lose(new MeterFault('lost', '/dev/ttyUSB0', 'plug the cable in again, then connect'));
  expect(await bench.endOf(sweepId)).toMatchObject({
    state: 'partial',
    readingCount: 2,
    reason: '/dev/ttyUSB0: plug the cable in again, then connect',
  });
  const changed = await bench.until(() =>
    bench.sent.find((event) => event.name === 'meter.changed' && event.data.meter === null),
  );
  expect(changed.data).toEqual({ meter: null, lost: 'plug the cable in again, then connect' });
  expect(await refusalOf(() => bench.start())).toMatchObject({ code: 'no-meter' });
  await bench.handlers['meters.connect']({ kind: 'simulated' }, bench.signal);
  bench.meter().release(6);
  expect(await bench.endOf(await bench.start())).toMatchObject({ state: 'complete', readingCount: 6 });
});

it('is partial when the meter talks nonsense, and the meter stays connected', async () => {
  const nonsense = new MeterFault('not-understood', 'meter', 'it answered "?"; read again');
  const bench = await joined({ script: { levelDbmv: (mhz) => (mhz > 70 ? nonsense : 1) } });
  const end = await bench.endOf(await bench.start());
  expect(end).toMatchObject({
    state: 'partial',
    readingCount: 3,
    reason: 'meter: it answered "?"; read again',
  });
  expect((await bench.handlers['meters.current']({}, bench.signal)).meter).not.toBeNull();
});

it.each([Number.NaN, Number.POSITIVE_INFINITY, 1e9])(
  'keeps no level of %s, and ends as partial instead',
  async (level) => {
    const bench = await joined({ script: { levelDbmv: (mhz) => (mhz > 60 ? level : 1) } });
    const sweepId = await bench.start();
    expect(await bench.endOf(sweepId)).toMatchObject({ state: 'partial', readingCount: 2 });
    expect((await bench.open(sweepId)).readings.map(({ meterDbmv }) => meterDbmv)).toEqual([1, 1]);
  },
);

it('keeps "no level here" as a reading', async () => {
  const bench = await joined({ script: { levelDbmv: (mhz) => (mhz === 60 ? null : -0.0004) } });
  const sweepId = await bench.start(3);
  expect(await bench.endOf(sweepId)).toMatchObject({ state: 'complete' });
  expect((await bench.open(sweepId)).readings.map(({ meterDbmv }) => meterDbmv)).toEqual([0, null, 0]);
});

it('lets one sweep run at a time, and nothing happens under it', async () => {
  const bench = await joined({ script: { stepped: true } });
  await bench.start();
  const call = bench.handlers;
  expect(await refusalOf(() => bench.start())).toMatchObject({ code: 'sweep-running' });
  expect(await refusalOf(() => call['meters.connect']({ kind: 'simulated' }, bench.signal))).toMatchObject({
    code: 'sweep-running',
  });
  expect(await refusalOf(() => call['meters.disconnect']({}, bench.signal))).toMatchObject({
    code: 'sweep-running',
  });
  expect(
    await refusalOf(() => call['visits.end']({ visitId: bench.visit.visitId, note: '' }, bench.signal)),
  ).toMatchObject({ code: 'sweep-running' });
  const fit = {
    visitId: bench.visit.visitId,
    changes: [{ position: 'input pad', from: 6, to: 3 }],
    proposal: null,
  };
  expect(await refusalOf(() => call['parts.fit'](fit, bench.signal))).toMatchObject({
    code: 'sweep-running',
  });
  await bench.close();
});
