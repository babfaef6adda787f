import { closeSync, existsSync, openSync, readdirSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { ARCHIVE_FILE } from '../../electron/backend/archive/open.ts';
import { archive } from '../../electron/cli/verbs/archive.ts';
import { lookInto, throwAwayFolder } from '../support/archive.ts';
import { runInside, runOutside } from '../support/command-line.ts';
import { recordedFolder } from '../support/recorded-folder.ts';

const act = (...words: string[]) => runInside([archive], ['archive', ...words]);

const recorded = async () => (await recordedFolder()).folder;

/** The file's first pages as if a drive had lost them. */
function spoil(folder: string): void {
  const file = openSync(join(folder, ARCHIVE_FILE), 'r+');
  writeSync(file, Buffer.alloc(40_000, 0xff), 0, 40_000, 0);
  closeSync(file);
}

it('backs up, loses the archive, restores it, and keeps the damaged file aside', async () => {
  const folder = await recorded();
  const { stdout, exitCode } = await runOutside(['archive', 'backup', '--data', folder, '--json']);
  expect(exitCode).toBe(0);
  const made = JSON.parse(stdout);
  expect(made).toMatchObject({ sweeps: 1, broken: 0, letGo: [] });
  expect(existsSync(made.path)).toBe(true);

  spoil(folder);
  const lost = await act('verify', '--data', folder);
  expect(lost.exitCode).toBe(3);
  const back = await act('restore', '--data', folder, '--json');
  expect(back).toMatchObject({ exitCode: 0, stderr: '' });
  const restored = JSON.parse(back.stdout);
  expect(restored).toMatchObject({ from: made.path, records: made.records, sweeps: 1 });
  expect(existsSync(restored.keptAside)).toBe(true);
  const whole = JSON.parse((await act('verify', '--data', folder, '--json')).stdout);
  expect(whole).toMatchObject({ sweeps: 1, broken: [] });
  // What is recorded from here on can't pass for what was recorded before.
  expect(whole.head.device).not.toBe(made.head.device);
});

it('writes onto another drive, and says so where it can not', async () => {
  const folder = await recorded();
  const stick = throwAwayFolder();
  expect(await act('backup', '--data', folder, '--to', stick)).toMatchObject({ exitCode: 0, stderr: '' });
  expect(readdirSync(stick).toSorted()).toMatchObject([
    expect.stringMatching(/^tiltwright-\d{8}T\d{6}Z\.json$/),
    expect.stringMatching(/^tiltwright-\d{8}T\d{6}Z\.sqlite$/),
  ]);
  const nowhere = await act('backup', '--data', folder, '--to', join(folder, ARCHIVE_FILE, 'stick'));
  expect(nowhere).toMatchObject({ exitCode: 3, stdout: '' });
  expect(nowhere.stderr).toMatch(/the older ones are as they were: make room, or name another folder\n$/);
});

it('ends with 1 for a backup of records that are not as they were, and never restores by it unasked', async () => {
  const folder = await recorded();
  lookInto(folder, (db) => {
    db.exec("DROP TRIGGER sweep_is_never_changed; UPDATE sweep SET port_name = 'forward input'");
  });
  const made = await act('backup', '--data', folder);
  expect(made.exitCode).toBe(1);
  expect(made.stdout).toContain('"archive verify" names them. No older backup was let go.');
  const none = await act('restore', '--data', folder);
  expect(none).toMatchObject({ exitCode: 3, stdout: '' });
  expect(none.stderr).toMatch(/no backup that was found whole is here; name one with --from FILE\n$/);
  expect((await act('verify', '--data', folder)).exitCode).toBe(1);
});

it('restores nothing from what is no backup', async () => {
  const folder = await recorded();
  const refused = await act('restore', '--data', folder, '--from', join(folder, 'gone.sqlite'));
  expect(refused).toMatchObject({ exitCode: 3, stdout: '' });
  expect(refused.stderr).toContain('no such file');
  expect((await act('verify', '--data', folder)).exitCode).toBe(0);
});

it('says how a damaged archive goes on, and takes out what can be read', async () => {
  const folder = await recorded();
  await act('backup', '--data', folder);
  const file = openSync(join(folder, ARCHIVE_FILE), 'r+');
  const page = lookInto(folder, (db) =>
    Number(db.prepare("SELECT rootpage FROM sqlite_schema WHERE name = 'visit'").pluck().get()),
  );
  writeSync(file, Buffer.alloc(4096), 0, 4096, (page - 1) * 4096);
  closeSync(file);
  const lost = await act('verify', '--data', folder);
  expect(lost.exitCode).toBe(3);
  expect(lost.stderr).toMatch(
    /: the archive is damaged( \(.*\))?; put back the backup of \d{4}-\d\d-\d\d \d\d:\d\d UTC \(\d+ records\) with `npm run -s tiltwright -- archive restore --data "[^"]+"`, or take out what can be read with `npm run -s tiltwright -- archive salvage --data "[^"]+"`; both keep this file aside\n$/,
  );
  const saved = await act('salvage', '--data', folder);
  expect(saved).toMatchObject({ exitCode: 0, stderr: '' });
  expect(saved.stdout).toMatch(
    /^Saved \d+ records, 0 lost\.\n.*\nHoles were filled from .*\.sqlite\.\nThe damaged file is kept as /,
  );
  expect(JSON.parse((await act('verify', '--data', folder, '--json')).stdout)).toMatchObject({
    sweeps: 1,
    broken: [],
  });
  // Nothing is there any more to take out of: the second one is of a sound archive.
  expect(JSON.parse((await act('salvage', '--data', folder, '--json')).stdout)).toMatchObject({
    lost: 0,
    unproven: 0,
  });
  const nothing = await act('salvage', '--data', throwAwayFolder());
  expect(nothing).toMatchObject({ exitCode: 3, stdout: '' });
  expect(nothing.stderr).toContain('it is not there');
});
