import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { season } from '../../electron/cli/verbs/season.ts';
import { harbourStation } from '../core/season/harbour-station.ts';
import { runInside } from '../support/command-line.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-season-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const fileOf = (name: string, content: unknown): string => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify(content));
  return path;
};
const run = (...args: string[]) => runInside([season], ['season', ...args]);

const short = fileOf('short.json', harbourStation({ upDb: 0.5, downDb: 1.5 }));

describe('season', () => {
  it('prints the keys of the contract', async () => {
    const ran = await run(short, '--from-c', '-40', '--to-c', '45', '--step-c', '85', '--json');
    expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
    const answer = JSON.parse(ran.stdout);
    expect(answer).toMatchObject({ firstLimitHotC: 45, firstLimitColdC: -40 });
    expect(answer.rows).toHaveLength(2);
    expect(Object.keys(answer.rows[0])).toEqual([
      ...['ambientC', 'mode', 'lowDbmv', 'highDbmv', 'controlDb', 'atLimit'],
    ]);
    // Computed outside this project, in Python from the contract's formulas.
    expect(answer.rows[0].lowDbmv).toBeCloseTo(36.284015541099784, 9);
    expect(answer.rows[0].highDbmv).toBeCloseTo(47.14, 9);
    expect(answer.rows[1]).toMatchObject({ ambientC: 45, mode: 'auto', controlDb: 0.5, atLimit: true });
    expect(answer.exactLimitHotC).toBeCloseTo(20 + 0.5 / 0.044, 9);
  });

  it('goes from -30 to 45 C in steps of 5 unless told, and its help says so', async () => {
    const rows = JSON.parse((await run(short, '--json')).stdout).rows;
    expect([rows.length, rows[0].ambientC, rows.at(-1).ambientC]).toEqual([16, -30, 45]);
    const { stdout } = await run('--help');
    for (const words of ['default: -30', 'default: 45', 'default: 5']) expect(stdout).toContain(words);
  });

  it('reads as a table', async () => {
    const { stdout } = await run(short);
    expect(stdout).toContain('Quillmere harbour 9');
    expect(stdout).toContain('Hot: at its limit from 31.4 °C');
    expect(stdout).toContain('at its limit');
  });

  it.each([
    ['without a span', { span: undefined }, 'span'],
    ['without a gain control', { gainControl: undefined }, 'gainControl'],
  ])('refuses a station %s', async (name, change, word) => {
    const ran = await run(fileOf(`${name}.json`, { ...harbourStation(), ...change }), '--json');
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toContain(word);
    expect(ran.stderr).toContain(`${name}.json`);
  });

  it('refuses a range that is none', async () => {
    expect(await run(short, '--from-c', '10', '--to-c', '0')).toMatchObject({ exitCode: 2, stdout: '' });
    expect(await run(short, '--step-c', '0')).toMatchObject({ exitCode: 2 });
    expect(await run(join(folder, 'nowhere.json'))).toMatchObject({ exitCode: 2 });
  });
});
