import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it, onTestFinished } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { throwAwayFolder } from '../../support/archive.ts';

const never = new AbortController().signal;
const connect = async (path: string) => {
  const shop = createMeterShop({ now: () => new Date(0) });
  const meter = await shop.connect({ kind: 'serial', path, profile: 'replay' }, never);
  onTestFinished(() => meter.close());
  return meter;
};
const fileOf = (text: string) => {
  const path = join(throwAwayFolder(), 'as,found*.csv');
  writeFileSync(path, text);
  return path;
};
const recorded = 'frequency_mhz,level_dbmv\n57,12.34\n63,-3.5\n69,\n';

it('answers with the levels of the file, and says where it has none', async () => {
  const meter = await connect(fileOf(recorded));
  expect(meter.identity).toMatchObject({ maker: 'Tiltwright', serialNumber: 'as_found_.csv' });
  const levels: (number | null)[] = [];
  for await (const { meterDbmv } of meter.readLevels([63, 57.01, 69], never)) levels.push(meterDbmv);
  expect(levels).toEqual([-3.5, 12.34, null]);
});

it('has no reading where the file has no row: nothing is invented between two', async () => {
  const meter = await connect(fileOf(recorded));
  await expect(meter.readLevels([60], never).next()).rejects.toMatchObject({
    code: 'meter-error',
    help: expect.stringMatching(/at 60 MHz: .*reports 2 .*out of the plan/),
  });
});

it('refuses a file that is not there, and one that holds no sweep', async () => {
  await expect(connect('/nowhere/sweep.csv')).rejects.toMatchObject({ code: 'no-such-port' });
  await expect(connect(fileOf('a,b\n1,2\n'))).rejects.toMatchObject({ code: 'no-such-port' });
});
