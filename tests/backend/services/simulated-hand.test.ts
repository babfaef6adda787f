import { expect, it } from 'vitest';
import type { SimulatedHand } from '../../../core/bridge/live-calls.ts';
import { createHandlers } from '../../../electron/backend/handlers.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { openTestArchive, type TestParts, testParts } from '../../support/archive.ts';
import { refusalOf } from './joined.ts';

const signal = new AbortController().signal;
const stationId = 'qm4-19-lighthouse-rise';

/** The backend over the simulated meter, with a clock that a test moves. */
async function simulated(parts: TestParts = testParts()) {
  const shop = createMeterShop({ now: parts.clock.now });
  const { handlers, close } = createHandlers({ ...parts, shop, host: 'memory', version: '0' });
  await handlers['demo.load']({}, signal);
  const hand = (did: SimulatedHand, id = stationId) =>
    handlers['simulate.hand']({ stationId: id, hand: did }, signal);
  const module = async (id = stationId) =>
    (await handlers['simulate.module']({ stationId: id }, signal)).module;
  return { ...parts, handlers, close, hand, module };
}

it('turns nothing while a real meter, or none, is in use', async () => {
  const bench = await simulated();
  expect(await refusalOf(() => bench.hand({ act: 'turn', turnDb: 1 }))).toMatchObject({
    code: 'not-simulated',
  });
});

it('finds the module where the network tells it: at its stop in the frost', async () => {
  const bench = await simulated();
  expect(await bench.module()).toEqual({
    mode: 'auto',
    controlDb: -0.5,
    lowestDb: -0.5,
    highestDb: 7.5,
    handAtEnd: null,
    pilotPresent: true,
    ambientC: -18,
  });
  expect(await bench.module('qm-bench-b2')).toBeNull();
});

it('turns, switches, exchanges, and stands the same after a restart', async () => {
  const bench = await simulated();
  await bench.handlers['meters.connect']({ kind: 'simulated' }, signal);
  expect(await refusalOf(() => bench.hand({ act: 'turn', turnDb: 1 }, 'qm-bench-b2'))).toMatchObject({
    code: 'no-gain-control',
  });
  await bench.hand({ act: 'mode', mode: 'manual' });
  expect(await bench.hand({ act: 'exchange', upDb: 4.2, downDb: 6.3 })).toMatchObject({
    mode: 'manual',
    controlDb: -6.3,
    handAtEnd: 'low',
  });
  const left = await bench.hand({ act: 'turn', turnDb: 2.5 });
  expect(left).toMatchObject({ handAtEnd: null, highestDb: 4.2 });
  expect(left.controlDb).toBeCloseTo(-3.8, 9);
  await bench.close();
  bench.archive.close();
  bench.clock.forward(3_600_000);
  const again = await simulated({ ...bench, archive: openTestArchive(bench.folder) });
  expect(await again.module()).toEqual(left);
  await again.close();
});
