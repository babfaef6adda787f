import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { archive } from '../../electron/cli/verbs/archive.ts';
import { joined } from '../backend/services/joined.ts';
import { lookInto, openTestArchive, throwAwayFolder } from '../support/archive.ts';
import { runInside, runOutside } from '../support/command-line.ts';

async function recorded(): Promise<Readonly<{ folder: string; sweepId: string }>> {
  const bench = await joined();
  const sweepId = await bench.start();
  await bench.endOf(sweepId);
  await bench.close();
  bench.archive.close();
  return { folder: bench.folder, sweepId };
}

it('says that each record is as it was, with the head to keep elsewhere', async () => {
  const { folder } = await recorded();
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
  const { folder, sweepId } = await recorded();
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

it('refuses what it does not know, in one line', async () => {
  for (const args of [['archive', 'burn'], ['archive', 'verify', '--twice'], ['archive']]) {
    const { exitCode, stderr } = await runInside([archive], args);
    expect(exitCode, args.join(' ')).toBe(2);
    expect(stderr.trimEnd().split('\n')).toHaveLength(1);
  }
});
