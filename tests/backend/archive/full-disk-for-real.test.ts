import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { throwAwayFolder } from '../../support/archive.ts';
import { root } from '../../support/source-files.ts';

/** Runs something on a disk of its own, in memory, that nobody else sees; needs no rights where Linux lets users do so. */
const onOwnDisk = (folder: string, command: readonly string[]) =>
  spawnSync(
    'unshare',
    ['-Urm', 'sh', '-c', 'mount -t tmpfs -o size=48m tmpfs "$0" && exec "$@"', folder, ...command],
    { encoding: 'utf8', timeout: 60_000, cwd: root },
  );
const canHaveOne = process.platform === 'linux' && onOwnDisk('/mnt', ['true']).status === 0;

// Elsewhere the same is tried with SQLite's own limit, in services/care.test.ts.
it.runIf(canHaveOne)(
  'a disk filled to the brim: the ballast goes for what was read, nothing acknowledged is lost, and the archive opens',
  () => {
    const child = fileURLToPath(new URL('full-disk-child.ts', import.meta.url));
    const program = ['--import', join(root, 'electron/node-floor.mjs'), child];
    const folder = throwAwayFolder();
    const { stdout, stderr, status } = onOwnDisk(folder, [process.execPath, ...program, folder]);
    expect([stderr, status]).toEqual(['', 0]);
    const said = JSON.parse(stdout);
    const full = expect.stringMatching(/^full: the disk takes no more \(SQLITE_\w+\); free some space/);
    // What can be done again doesn't touch the ballast.
    expect(said).toMatchObject({ madeIt: true, written: full, afterWrite: { ballast: true } });
    // Twenty megabytes hold a hundred of these more.
    expect(said).toMatchObject({ kept: full, afterKeep: { ballast: false } });
    expect(said.afterKeep.count - said.afterWrite.count).toBeGreaterThan(50);
    expect(said).toMatchObject({
      again: 'kept',
      madeAgain: true,
      found: said.afterKeep.count + 1,
      last: 'kept',
    });
    expect(said.atTheEnd).toBe(said.acknowledged);
  },
);
