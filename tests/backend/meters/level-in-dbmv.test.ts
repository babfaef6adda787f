import { expect, it } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { levelInDbmv } from '../../../electron/backend/meters/level-in-dbmv.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { type LevelUnit, levelUnits } from '../../../electron/backend/meters/profile.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { wireToInstrument } from '../../../electron/backend/meters/simulated/link.ts';

const never = new AbortController().signal;

// Definitions: 0 dBmV = 1 mV = 60 dBuV; 1 mV in 75 ohm is 13.33 nW = -48.75 dBm.
it.each([
  ['DBMV', 12.5, 12.5],
  ['DBUV', 60, 0],
  ['DBM', -48.750613, 0],
  ['V', 0.001, 0],
  ['V', 0.01, 20],
] as const)('%s: %d is %d dBmV', (unit, amount, levelDbmv) => {
  expect(levelInDbmv(amount, unit)).toBeCloseTo(levelDbmv, 5);
});

it('takes no volt for no level, never for minus infinity', () => {
  expect(levelInDbmv(0, 'V')).toBeNull();
  expect(levelInDbmv(-0.001, 'V')).toBeNull();
});

const shopOf = (units: readonly [LevelUnit, ...LevelUnit[]], level: number | null) =>
  createMeterShop({
    now: () => new Date(0),
    openSerial: async (path, { lines }) =>
      createLineLink(
        path,
        lines,
        wireToInstrument(new SimulatedInstrument({ source: () => level, units }), {
          messageMs: 0,
          readingMs: 0,
        }),
      ),
  });
const connected = (units: readonly [LevelUnit, ...LevelUnit[]], level: number | null) =>
  shopOf(units, level).connect({ kind: 'serial', path: 'COM3', profile: 'scpi' }, never);

it.each(levelUnits)('reads the same level from a meter that can count in %s only', async (unit) => {
  const meter = await connected([unit], 17.25);
  const { value: reading } = await meter.readLevels([711], never).next();
  expect(reading?.meterDbmv).toBeCloseTo(17.25, 2);
  await meter.close();
});

it.each(levelUnits)('reads no level as null, whatever the meter counts in (%s)', async (unit) => {
  const meter = await connected([unit], null);
  const { value: reading } = await meter.readLevels([711], never).next();
  expect(reading?.meterDbmv).toBeNull();
  await meter.close();
});
