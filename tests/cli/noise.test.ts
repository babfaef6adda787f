import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { noise } from '../../electron/cli/verbs/noise.ts';
import { runInside } from '../support/command-line.ts';
import { samplePath } from '../support/workbench.ts';

const run = (...args: string[]) => runInside([noise], ['noise', ...args]);
const all = ['03-ropewalk', '07-mill-lane', '11-customs-quay', '14-saltpan-road', '19-lighthouse-rise'];
const cascade = (names: readonly string[]) => [
  ...names.map((name) => samplePath(`${name}.station.json`)),
  '--notes',
  ...names.map((name) => samplePath(`${name}.notes.json`)),
];
const folder = mkdtempSync(join(tmpdir(), 'tiltwright-noise-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const notes = (name: string, more: object): string => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify({ format: 'tiltwright-station-notes/1', ...more }));
  return path;
};

describe('noise', () => {
  it('tells a row for each figure, the cascade of five worse than that of two', async () => {
    const two = JSON.parse((await run(...cascade(all.slice(0, 2)), '--json')).stdout);
    const ran = await run(...cascade(all), '--json');
    expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
    const five = JSON.parse(ran.stdout);
    expect(five).toMatchObject({ station: '19 Lighthouse Rise', count: 5 });
    expect(five.rows.map(({ key }: { key: string }) => key)).toEqual(['cnr', 'ctb', 'cso', 'mer']);
    expect(five.rows[0].cascadeDb).toBeLessThan(two.rows[0].cascadeDb);
    expect(five.rows[1].cascadeDb).toBeGreaterThan(two.rows[1].cascadeDb);
  });
  it('ends with 1 where a limit is not kept', async () => {
    const hot = notes('hot.json', {
      amplifier: { noiseFigureDb: 9, gainDb: 38, ratedAtDbmv: 46, ctbDbc: -50, csoDbc: -70 },
    });
    const ran = await run(samplePath('03-ropewalk.station.json'), '--notes', hot);
    expect(ran.exitCode).toBe(1);
    expect(ran.stdout).toContain('3.0 dB beyond it (ANSI/SCTE 40)');
  });
  it('decides nothing nearer to a limit than data sheets tell, and says by which limit analog carriers are judged', async () => {
    // Channels 2 to 4 on the comb of 6.0003 MHz (47 CFR 76.612(a)(2)): 47 dB holds, and -48.0 is within 2 dB of it.
    const lineUp = [9, 10, 11].map((n) => ({
      ...{ channelLabel: `${n - 7}`, frequencyMhz: n * 6.0003, kind: 'analog', widthMhz: 6, offsetDb: 0 },
    }));
    const amplifier = { noiseFigureDb: 9, gainDb: 38, ratedAtDbmv: 46, ctbDbc: -48, csoDbc: -70 };
    const near = notes('near.json', { lineUp, amplifier });
    const ran = await run(samplePath('03-ropewalk.station.json'), '--notes', near);
    expect(ran.exitCode).toBe(0);
    expect(ran.stdout).toContain(
      'at most -47.0 dBc, 1.0 dB in hand, undecided: data sheets tell it to 2 dB (47 CFR 76.605(a)(8), coherent disturbances, from memory)',
    );
    expect(ran.stdout).toContain(
      'Limit of analog distortion: all 3 analog carriers stand on the comb of HRC',
    );
  });
  it('says what is missing, and judges by nothing', async () => {
    const bare = notes('bare.json', {});
    const ran = await run(samplePath('03-ropewalk.station.json'), '--notes', bare);
    expect(ran.exitCode).toBe(0);
    expect(ran.stdout).toContain('Missing: not told for 03 Ropewalk');
  });
  it.each([
    [
      'notes for only some',
      [samplePath('03-ropewalk.station.json'), ...cascade(all.slice(1, 2))],
      'same order',
    ],
    [
      'notes that are none',
      [samplePath('03-ropewalk.station.json'), '--notes', samplePath('truck.json')],
      'truck.json',
    ],
    [
      'an unknown key',
      [samplePath('03-ropewalk.station.json'), '--notes', notes('odd.json', { amp: {} })],
      'amp',
    ],
  ])('refuses %s', async (_what, args, word) => {
    const ran = await run(...args, '--json');
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toContain(word);
  });
});
