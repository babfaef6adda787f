import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { fit } from '../../electron/cli/verbs/fit.ts';
import { runInside, runOutside } from '../support/command-line.ts';
import { root } from '../support/source-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-fit-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
};
const run = (...args: string[]) => runInside([fit], ['fit', ...args]);

/** By hand: levels 10, 12, 14 at 100, 200, 300 MHz lie on a line of 4 dB. */
const straight = fileOf('straight.csv', 'frequency_mhz,level_dbmv\n300,14\n100,10\n200,12\n');
/** By hand: 100 and 400 MHz have roots 10 and 20; 225 MHz lies half-way. */
const bent = fileOf('bent.csv', 'frequency_mhz,level_dbmv\n100,10\n225,15\n400,20\n');

describe('fit', () => {
  it('prints exactly the keys of the contract, and the standard errors', async () => {
    const ran = await run(straight, '--json');
    expect(ran).toMatchObject({ stderr: '', exitCode: 0 });
    expect(JSON.parse(ran.stdout)).toMatchObject({
      shape: 'linear',
      lowMhz: 100,
      highMhz: 300,
      count: 3,
      lowDbmv: 10,
      highDbmv: 14,
      tiltDb: 4,
      excluded: [],
    });
    expect(Object.keys(JSON.parse(ran.stdout))).toEqual([
      ...['shape', 'lowMhz', 'highMhz', 'count', 'lowDbmv', 'highDbmv', 'tiltDb', 'flatnessDb', 'rmsDb'],
      ...['worst', 'excluded', 'findings', 'standardErrors'],
    ]);
  });

  it('takes shape, low and high', async () => {
    const bend = JSON.parse((await run(bent, '--shape', 'cable', '--json')).stdout);
    expect(bend.tiltDb).toBeCloseTo(10, 9);
    expect(bend.flatnessDb).toBeCloseTo(0, 9);
    const ends = JSON.parse((await run(straight, '--low', '0', '--high', '400', '--json')).stdout);
    expect([ends.lowDbmv, ends.highDbmv]).toEqual([expect.closeTo(8, 9), expect.closeTo(16, 9)]);
    const part = JSON.parse((await run(straight, '--low', '150', '--json')).stdout);
    expect([part.count, part.lowMhz, part.highMhz]).toEqual([2, 150, 300]);
  });

  it('joins two QAM orders by the step that the sweep shows, or takes the line-up', async () => {
    const rows = Array.from({ length: 20 }, (_, i) => {
      const level = 10 + i / 10 - (i >= 10 ? 3 : 0);
      return `${100 + 6 * i},${level},${i >= 10 ? '64QAM' : '256QAM'}`;
    });
    const mixed = fileOf('mixed.csv', `frequency_mhz,level_dbmv,modulation\n${rows.join('\n')}\n`);
    const fitted = JSON.parse((await run(mixed, '--json')).stdout);
    expect(fitted.tiltDb).toBeCloseTo(1.9, 9);
    expect(fitted.findings[0].text).toBe(
      '64-QAM is carried 3.0 dB below 256-QAM; usual is 4.0. 10 rows moved by that onto the line of 256-QAM.',
    );
    const lineUp = rows.map((row, i) => ({
      ...{ channelLabel: `${i}`, frequencyMhz: Number(row.split(',')[0]), kind: 'qam', widthMhz: 6 },
      offsetDb: i >= 10 ? -9 : -6,
    }));
    const notes = fileOf('notes.json', JSON.stringify({ format: 'tiltwright-station-notes/1', lineUp }));
    const moved = JSON.parse((await run(mixed, '--line-up', notes, '--json')).stdout);
    expect(moved.lowDbmv).toBeCloseTo(16, 9);
    const none = fileOf('none.json', JSON.stringify({ format: 'tiltwright-station-notes/1' }));
    expect(await run(mixed, '--line-up', none)).toMatchObject({
      exitCode: 2,
      stderr: expect.stringContaining('has no "lineUp"'),
    });
  });

  it('names what was left out, and keeps it with --keep-all', async () => {
    const rows = Array.from({ length: 20 }, (_, i) => `${100 + 6 * i},10`).join('\n');
    const odd = fileOf('odd.csv', `frequency_mhz,level_dbmv\n${rows}\n300,-40\n,3\n`);
    const screened = JSON.parse((await run(odd, '--json')).stdout);
    expect(screened.excluded.map((row: { frequencyMhz: number | null }) => row.frequencyMhz).sort()).toEqual([
      300,
      null,
    ]);
    const kept = JSON.parse((await run(odd, '--json', '--keep-all')).stdout);
    expect([kept.count, kept.excluded.length]).toEqual([21, 1]);
  });

  it('speaks to a person in an aligned table with units and signs', async () => {
    const { stdout } = await run(straight);
    expect(stdout).toContain(
      'Level     10.0  dBmV  at 100 MHz\n          14.0  dBmV  at 300 MHz\nTilt      +4.0  dB    straight',
    );
  });

  // By hand: 10, 13, 10 at 0, 1/2, 1 lie 1, 2 and 1 dB off their mean; s^2 = 6 / 1, tilt s / sqrt(1/2), an end s sqrt(1/3 + 1/2).
  it('tells the standard errors of the line', async () => {
    const hill = fileOf('hill.csv', 'frequency_mhz,level_dbmv\n100,10\n200,13\n300,10\n');
    expect((await run(hill)).stdout).toContain(
      'Standard errors of the line: 2.24 dB at its low end, 2.24 dB at its high end, 3.46 dB of tilt.',
    );
    const two = fileOf('two.csv', 'frequency_mhz,level_dbmv\n100,10\n200,13\n');
    expect((await run(two)).stdout).not.toContain('Standard errors');
  });

  it.each([
    ['a folder', [folder], /is a folder/],
    ['binary', [fileOf('binary.csv', new Uint8Array([0xff, 0xd8, 0, 1, 2]))], /binary\.csv, line 1/],
    [
      'UTF-16 without its mark',
      [fileOf('wide.csv', Buffer.from('frequency_mhz,level_dbmv\n', 'utf16le'))],
      /wide\.csv, line 1/,
    ],
    ['one row', [fileOf('one.csv', 'frequency_mhz,level_dbmv\n57,1\n')], /one\.csv, 1 usable row/],
    [
      'words',
      [fileOf('words.csv', 'frequency_mhz,level_dbmv\n57,1\n63,loud\n')],
      /words\.csv, line 3, column "level_dbmv"/,
    ],
    ['a shape that is none', [straight, '--shape', 'round'], /Allowed choices are linear, cable/],
    ['a number that is none', [straight, '--low', 'deep'], /a frequency in MHz is a number/],
    ['a number in no notation of people', [straight, '--low', '0x10'], /a frequency in MHz is a number/],
    ['a range that is none', [straight, '--low', '300', '--high', '100'], /low frequency must lie below/],
    ['a path that is none', ['a\0b'], /is no path/],
  ])('refuses %s in one line', async (_what, args, line) => {
    const ran = await run(...args, '--json');
    expect(ran).toMatchObject({ stdout: '', exitCode: 2 });
    expect(ran.stderr).toMatch(line);
    expect(ran.stderr.split('\n')).toHaveLength(2);
  });

  it('refuses a file beyond 20 MB unread', async () => {
    const large = fileOf('large.csv', new Uint8Array(20 * 1024 * 1024 + 1).fill(0x20));
    expect((await run(large)).stderr).toContain('larger than 20 MB');
  });

  it('answers in a process of its own with one object and nothing else', async () => {
    const ran = await runOutside(['fit', straight, '--json']);
    expect(ran).toMatchObject({ stderr: '', exitCode: 0 });
    expect(JSON.parse(ran.stdout).tiltDb).toBeCloseTo(4, 9);
  });
});

/** Ordinary least squares by another way than core's: Cramer's rule on frequency itself, then the line at both ends. */
function leastSquares(pairs: readonly (readonly [number, number])[]) {
  const sum = (of: (f: number, level: number) => number) =>
    pairs.reduce((all, [f, level]) => all + of(f, level), 0);
  const n = pairs.length;
  const f1 = sum((f) => f);
  const f2 = sum((f) => f * f);
  const l1 = sum((_f, level) => level);
  const fl = sum((f, level) => f * level);
  const slope = (n * fl - f1 * l1) / (n * f2 - f1 * f1);
  const start = (f2 * l1 - f1 * fl) / (n * f2 - f1 * f1);
  const at = (f: number) => start + slope * f;
  const rest = pairs.map(([f, level]) => level - at(f));
  const low = Math.min(...pairs.map(([f]) => f));
  const high = Math.max(...pairs.map(([f]) => f));
  return {
    lowDbmv: at(low),
    highDbmv: at(high),
    tiltDb: at(high) - at(low),
    flatnessDb: Math.max(...rest) - Math.min(...rest),
    rmsDb: Math.sqrt(rest.reduce((all, r) => all + r * r, 0) / n),
  };
}

const real = join(root, '../shared/real-levels');
describe.skipIf(!existsSync(real))(
  'real channel tables (skipped where ../shared/real-levels is absent)',
  () => {
    const names = existsSync(real) ? readdirSync(real).filter((name) => name.endsWith('.csv')) : [];
    it.each(names)('%s agrees with ordinary least squares to 1e-6', async (name) => {
      const ran = await run(join(real, name), '--json', '--keep-all');
      expect(ran).toMatchObject({ stderr: '', exitCode: 0 });
      const pairs = readFileSync(join(real, name), 'utf8')
        .split('\n')
        .slice(1)
        .map((line) => line.split(','))
        .filter(
          ([f, level]) =>
            /^\d+(\.\d+)?$/.test(f ?? '') && Number(f) > 0 && level !== undefined && level !== '',
        )
        .map(([f, level]) => [Number(f), Number(level)] as const);
      const found = JSON.parse(ran.stdout);
      expect(found.count).toBe(pairs.length);
      for (const [key, value] of Object.entries(leastSquares(pairs)))
        expect(Math.abs(found[key] - value), key).toBeLessThan(1e-6);
    });
  },
);
