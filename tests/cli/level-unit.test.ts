import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { fit } from '../../electron/cli/verbs/fit.ts';
import { propose } from '../../electron/cli/verbs/propose.ts';
import { season } from '../../electron/cli/verbs/season.ts';
import { sweep } from '../../electron/cli/verbs/sweep.ts';
import { runInside } from '../support/command-line.ts';
import { root } from '../support/source-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-unit-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string, content: string): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const sample = (name: string) => join(root, 'sample-sweeps', name);
const run = (...args: string[]) => runInside([fit, propose, season, sweep], args);

// Levels 10, 12, 14 dBmV at 100, 200, 300 MHz lie on a line of 4 dB; 0 dBmV is 60 dBµV and -48.75 dBm in 75 ohm
// (definitions; 10 log10(1e-6 / 75 / 1e-3) = -48.75).
const straight = fileOf('straight.csv', 'frequency_mhz,level_dbmv\n300,14\n100,10\n200,12\n');

it.each([
  ['dbuv', /Level +70\.0 +dBµV +at 100 MHz/, /74\.0 +dBµV +at 300 MHz/],
  ['dbm', /Level +-38\.8 +dBm +at 100 MHz/, /-34\.8 +dBm +at 300 MHz/],
  // 10 log10(1e-6 / 50 / 1e-3) = -46.99; 10 and 14 dBmV are 10^(1/2) and 10^(0.7) mV.
  ['dbm50', /Level +-37\.0 +dBm\/50 +at 100 MHz/, /-33\.0 +dBm\/50 +at 300 MHz/],
  ['mv', /Level +3\.16 +mV +at 100 MHz/, /5\.01 +mV +at 300 MHz/],
  ['DBMV', /Level +10\.0 +dBmV +at 100 MHz/, /14\.0 +dBmV +at 300 MHz/],
])('says the text in %s and leaves tilt and JSON as they are', async (unit, low, high) => {
  const { stdout } = await run('fit', straight, '--unit', unit);
  expect(stdout).toMatch(low);
  expect(stdout).toMatch(high);
  expect(stdout).toMatch(/Tilt +\+4\.0 +dB/);
  const json = await run('fit', straight, '--unit', unit, '--json');
  expect(json.stdout).toBe((await run('fit', straight, '--json')).stdout);
});

it('refuses another unit in one line', async () => {
  const ran = await run('fit', straight, '--unit', 'volt');
  expect(ran).toMatchObject({ stdout: '', exitCode: 2 });
  expect(ran.stderr).toContain('a unit is dbmv, dbuv, dbm, dbm50 or mv');
});

it('reaches every level of a proposal, the stage input included', async () => {
  const given = ['07-mill-lane.as-found.csv', '07-mill-lane.station.json', '07-mill-lane.forward-input.csv'];
  const [found = '', station = '', input = ''] = given.map(sample);
  for (const more of [[], ['--input-sweep', input]]) {
    const { stdout } = await run('propose', found, '--station', station, ...more, '--unit', 'dbuv');
    expect(stdout).not.toContain('dBmV');
    expect(stdout).toContain(more.length === 0 ? '68.0 dBµV to 74.0 dBµV' : 'Stage input ');
  }
});

it('reaches the season and a sweep', async () => {
  const { stdout } = await run('season', sample('07-mill-lane.station.json'), '--unit', 'dbuv');
  expect(stdout).toMatch(/\d\d\.\d dBµV/);
  expect(stdout).not.toContain('dBmV');
  const plan = fileOf('plan.csv', '711\n');
  const read = await run('sweep', '--port', 'simulated', '--plan', plan, '--unit', 'dbm');
  expect(read.stdout).toMatch(/711 MHz +-\d\d\.\d +dBm\n/);
});

// 50 °C is 122 °F and -40 is -40 in both, by definition.
it('says the season in degrees F, its JSON never, and refuses another unit in one line', async () => {
  const range = ['season', sample('07-mill-lane.station.json'), '--from-c', '-40', '--to-c', '50'];
  const { stdout } = await run(...range, '--unit-temp', 'f');
  expect(stdout).toMatch(/^ *-40 °F/m);
  expect(stdout).toMatch(/^ *122 °F/m);
  expect(stdout).not.toContain('°C');
  expect((await run(...range)).stdout).toMatch(/^ *50 °C/m);
  const json = await run(...range, '--unit-temp', 'f', '--json');
  expect(JSON.parse(json.stdout).rows.at(-1).ambientC).toBe(50);
  const ran = await run(...range, '--unit-temp', 'k');
  expect(ran).toMatchObject({
    exitCode: 2,
    stderr: expect.stringContaining('a unit of temperature is c or f'),
  });
});
