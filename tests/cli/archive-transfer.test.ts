import { copyFileSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { archive } from '../../electron/cli/verbs/archive.ts';
import { openTestArchive, throwAwayFolder } from '../support/archive.ts';
import { runInside } from '../support/command-line.ts';
import { recordedFolder } from '../support/recorded-folder.ts';

const run = (...args: string[]) => runInside([archive], ['archive', ...args]);

const recorded = async () => (await recordedFolder()).folder;
function another(): string {
  const folder = throwAwayFolder();
  openTestArchive(folder).close();
  return folder;
}

describe('archive export and import', () => {
  it('bring the records of one laptop to another, once', async () => {
    const [from, to, stick] = [await recorded(), another(), throwAwayFolder()];
    const given = await run('export', '--data', from, '--out', stick, '--json');
    expect(given.exitCode).toBe(0);
    const said = JSON.parse(given.stdout);
    expect(Object.keys(said)).toEqual(['path', 'records', 'sweeps', 'bytes', 'head']);
    expect(said).toMatchObject({ records: 4, sweeps: 1 });
    expect(readdirSync(stick)).toEqual([said.path.slice(stick.length + 1)]);

    const taken = await run('import', said.path, '--data', to, '--json');
    const keys = ['records', 'added', 'known', 'conflicts', 'sweeps', 'sha256', 'device'];
    expect(Object.keys(JSON.parse(taken.stdout))).toEqual(keys);
    expect(JSON.parse(taken.stdout)).toMatchObject({
      records: 4,
      added: 4,
      known: 0,
      conflicts: 0,
      sweeps: 1,
    });
    const twice = await run('import', said.path, '--data', to);
    expect(twice).toMatchObject({ exitCode: 0, stdout: 'Nothing new: all 4 records are here already.\n' });
    expect(await run('verify', '--data', to)).toMatchObject({ exitCode: 0 });
  });

  it('write over no file that is there', async () => {
    const [from, stick] = [await recorded(), throwAwayFolder()];
    const other = join(stick, 'other.json');
    writeFileSync(other, 'kept');
    const ran = await run('export', '--data', from, '--out', other);
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toBe(
      `${other}: there is a file of this name; name another one, nothing is written over\n`,
    );
    expect(readFileSync(other, 'utf8')).toBe('kept');
    expect(readdirSync(stick)).toEqual(['other.json']);
  });

  it('take in a whole folder, and say what became of each file', async () => {
    const [from, to, stick] = [await recorded(), another(), throwAwayFolder()];
    const { stdout } = await run(
      'export',
      '--data',
      from,
      '--out',
      join(stick, 'a.records.gz'),
      '--station',
      'slipway',
    );
    expect(stdout).toContain('4 records with 1 sweep are in');
    copyFileSync(join(stick, 'a.records.gz'), join(stick, 'b.records.gz'));
    writeFileSync(join(stick, 'c.records.gz'), '');
    const all = await run('import', stick, '--data', to);
    expect(all.exitCode).toBe(0);
    expect(all.stdout).toMatch(
      /^a\.records\.gz: 4 records taken in, 1 sweep among them\.\nb\.records\.gz: taken in on \d{4}-\d\d-\d\d\nc\.records\.gz: the file is not whole/,
    );
    writeFileSync(join(stick, 'd.records.gz'), 'no');
    const odd = await run('import', stick, '--data', to, '--json');
    expect(odd.exitCode).toBe(1);
    const became = JSON.parse(odd.stdout).files.map((file: { became: string }) => file.became);
    expect(became).toEqual(['before', 'before', 'incomplete', 'refused']);
  });

  it.each([
    ['a station that is not here', ['--station', 'mole'], 'mole: no station has this id'],
    ['one day alone', ['--from', '2026-03-02'], 'say both days, or neither'],
    ['a day that is none', ['--from', '2026-02-30', '--to', '2026-03-02'], '2026-02-30: no day'],
    [
      'days the wrong way round',
      ['--from', '2026-03-02', '--to', '2026-03-01'],
      'the first not after the last',
    ],
    ['days without a record', ['--from', '2020-03-01', '--to', '2020-03-02'], 'nothing was recorded of this'],
  ])('refuse %s in one line, and leave no file', async (_, options, words) => {
    const [from, stick] = [await recorded(), throwAwayFolder()];
    const refused = await run('export', '--data', from, '--out', stick, ...options);
    expect(refused).toMatchObject({ exitCode: 2, stdout: '' });
    expect(refused.stderr).toContain(words);
    expect(refused.stderr).toMatch(/^[^\n]+\n$/);
    expect(readdirSync(stick)).toEqual([]);
  });

  it('refuse a file that is not there and one that is something else', async () => {
    const to = another();
    for (const path of [join(to, 'none.records.gz'), 'package.json'])
      expect(await run('import', path, '--data', to)).toMatchObject({ exitCode: 2, stdout: '' });
  });
});
