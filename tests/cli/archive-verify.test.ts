import { existsSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { archive } from '../../electron/cli/verbs/archive.ts';
import { lookInto, openTestArchive, stationFile, throwAwayFolder } from '../support/archive.ts';
import { runInside, runOutside } from '../support/command-line.ts';
import { recordedFolder } from '../support/recorded-folder.ts';

it('says that each record is as it was, with the head to keep elsewhere', async () => {
  const { folder } = await recordedFolder();
  const { stdout, exitCode } = await runOutside(['archive', 'verify', '--data', folder, '--json']);
  expect(exitCode).toBe(0);
  const said = JSON.parse(stdout);
  expect(said).toMatchObject({
    sweeps: 1,
    broken: [],
    head: { hash: expect.stringMatching(/^[0-9a-f]{64}$/) },
  });
  const plain = await runInside([archive], ['archive', 'verify', '--data', folder]);
  expect(plain.exitCode).toBe(0);
  expect(plain.stdout).toContain('1 sweep among them: each is as it was recorded.');
  expect(plain.stdout).toContain(said.head.hash);
});

it('ends with 1 and names the record that was changed', async () => {
  const { folder, sweepId } = await recordedFolder();
  lookInto(folder, (db) => {
    db.exec("DROP TRIGGER sweep_is_never_changed; UPDATE sweep SET port_name = 'forward input'");
  });
  const plain = await runInside([archive], ['archive', 'verify', '--data', folder]);
  expect(plain).toMatchObject({ exitCode: 1, stderr: '' });
  expect(plain.stdout).toMatch(
    new RegExp(`1 break, the first:\n  record \\d+ \\(sweep\\) ${sweepId} of laptop`),
  );
  const json = await runInside([archive], ['archive', 'verify', '--data', folder, '--json']);
  expect(JSON.parse(json.stdout).broken).toMatchObject([{ what: 'changed', kind: 'sweep', id: sweepId }]);
});

it('ends with 3 where there is no archive, and makes none; and while a workbench has it open', async () => {
  const empty = throwAwayFolder();
  const none = await runInside([archive], ['archive', 'verify', '--data', empty, '--json']);
  expect(none).toMatchObject({ exitCode: 3, stdout: '' });
  expect(none.stderr).toMatch(/no archive is here; name the folder of one with --data DIR\n$/);
  expect(existsSync(join(empty, ARCHIVE_FILE))).toBe(false);
  openTestArchive(empty);
  const busy = await runInside([archive], ['archive', 'verify', '--data', empty]);
  expect(busy.exitCode).toBe(3);
  expect(busy.stderr).toContain('another Tiltwright is at work in this folder');
});

it('says on a terminal how far it is, in one line that goes; elsewhere and in the answer nothing of it', async () => {
  const folder = throwAwayFolder();
  const filled = openTestArchive(folder);
  // Enough for some portions of 10 ms.
  filled.write(() => {
    for (let i = 0; i < 1500; i += 1) {
      filled.stations.add(`s${i}`, i);
      filled.stations.addRevision({
        ...{ stationId: `s${i}`, revision: 1, name: 'n', fileName: 'f', addedAtMs: 0 },
        design: stationFile({ id: `s${i}`, name: 'n' }),
      });
    }
  });
  filled.close();
  const stick = throwAwayFolder();
  const other = throwAwayFolder();
  openTestArchive(other).close();
  const file = join(stick, 'all.records.gz');
  const words: readonly (readonly [args: string[], far: RegExp])[] = [
    [['verify', '--data', folder], /^Looked at \d+ of 1501 records$/],
    [['export', '--data', folder, '--out', file], /^Wrote \d+ records$/],
    [['import', file, '--data', other], /^Read \d+ % of .*all\.records\.gz$/],
  ];
  for (const [args, far] of words) {
    const seen = await runInside([archive], ['archive', ...args], true);
    expect(seen.exitCode).toBe(0);
    // Each takes the place of the one before, and the last is wiped out before the answer.
    const lines = seen.stderr.split('\r\u001b[2K');
    expect([lines.at(0), lines.at(-1)]).toEqual(['', '']);
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines.slice(1, -1)) expect(line).toMatch(far);
    // No file is written over.
    if (args[0] === 'export') rmSync(file);
    const unseen = await runInside([archive], ['archive', ...args]);
    expect([unseen.stderr, unseen.exitCode]).toEqual(['', 0]);
  }
});

it('refuses what it does not know, in one line', async () => {
  for (const args of [['archive', 'burn'], ['archive', 'verify', '--twice'], ['archive']]) {
    const { exitCode, stderr } = await runInside([archive], args);
    expect(exitCode, args.join(' ')).toBe(2);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  }
});
