import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { inspect } from '../../electron/cli/verbs/inspect.ts';
import { channels, notchAt, rippleOf, simulatedSweep } from '../core/inspect/simulated-sweep.ts';
import { runInside } from '../support/command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-inspect-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string, ...sweep: Parameters<typeof simulatedSweep>): string => {
  const path = join(folder, name);
  const rows = simulatedSweep(...sweep).map((row) => `${row.frequencyMhz},${row.levelDbmv}`);
  writeFileSync(path, `frequency_mhz,level_dbmv\n${rows.join('\n')}\n`);
  return path;
};
const run = (...args: string[]) => runInside([inspect], ['inspect', ...args]);
const keys = (finding: object) => Object.keys(finding);

const faulty = fileOf(
  'faulty.csv',
  (f) =>
    rippleOf(60, 1)(f) + notchAt(300, 5, 25)(f) - 3 * Math.max(0, (f - 780) / 87) ** 2 + (f > 600 ? 2 : 0),
  { mhz: channels.filter((f) => f !== 453), noiseDb: 0.05 },
);

describe('inspect', () => {
  it('prints each finding with the keys of the contract', async () => {
    const ran = await run(faulty, '--json');
    expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
    const { findings } = JSON.parse(ran.stdout);
    expect(findings.map(keys)).toEqual([
      ['kind', 'periodMhz', 'peakToPeakDb', 'distanceM', 'distanceFt'],
      ['kind', 'centerMhz', 'depthDb', 'widthMhz'],
      ['kind', 'edge', 'fromMhz', 'depthDb'],
      ['kind', 'frequencyMhz'],
      ['kind', 'atMhz', 'stepDb'],
    ]);
  });

  // R. Hranac, "How Fast is RF?": 149.896 m times the velocity factor for a period of 1 MHz.
  it('takes the velocity factor of the cable', async () => {
    const [ripple] = JSON.parse((await run(faulty, '--velocity-factor', '0.66', '--json')).stdout).findings;
    expect(ripple.distanceM).toBeCloseTo((149.896229 * 0.66) / ripple.periodMhz, 5);
  });

  it('reads as lines', async () => {
    const { stdout } = await run(faulty);
    for (const words of [/Ripple +1\.0 dB peak to peak/, /Notch/, /Roll-off/, /453 MHz/, /Step +\+2\.0 dB/])
      expect(stdout).toMatch(words);
    expect((await run(fileOf('good.csv', () => 0, { noiseDb: 0.2 }))).stdout).toContain('no fault found');
  });

  it('refuses a file that is none, and a velocity factor that is none', async () => {
    expect(await run(join(folder, 'nowhere.csv'))).toMatchObject({ exitCode: 2, stdout: '' });
    const fast = await run(faulty, '--velocity-factor', '1.2', '--json');
    expect(fast).toMatchObject({ exitCode: 2, stdout: '' });
    expect(fast.stderr).toContain('0.87');
  });
});
