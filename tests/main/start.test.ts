import { spawn, spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { createClient } from '../../core/bridge/client.ts';
import { openTestArchive } from '../support/archive.ts';
import { projectRoot } from '../support/fake-electron.ts';
import { enter, openSocketWire } from '../support/loopback-client.ts';

const program = [
  '--import',
  path.join(projectRoot, 'electron/node-floor.mjs'),
  path.join(projectRoot, 'electron/start.ts'),
];
let folder = '';
beforeEach(() => {
  folder = mkdtempSync(path.join(tmpdir(), 'tiltwright-start-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it.each([
  [['--colour'], '--colour'],
  [['--port', 'x'], '--port x'],
])('a wrong option is one line and exit 2: %j', (words, named) => {
  const run = spawnSync(process.execPath, [...program, ...words], { encoding: 'utf8' });
  expect([run.status, run.stdout]).toEqual([2, '']);
  expect(run.stderr.trim().split('\n')).toEqual([expect.stringContaining(named)]);
});

it('a folder that can not be made is one line and exit 2', () => {
  const file = path.join(folder, 'a-file');
  writeFileSync(file, '');
  const words = ['--browser', '--no-open', '--data', path.join(file, 'inside')];
  const run = spawnSync(process.execPath, [...program, ...words], { encoding: 'utf8' });
  expect([run.status, run.stdout]).toEqual([2, '']);
  expect(run.stderr.trim().split('\n')).toEqual([expect.stringContaining('--data')]);
});

it('an archive that can not be opened is one line with the very commands, exit 3, and the file as it was', () => {
  const archive = path.join(folder, 'tiltwright.sqlite');
  openTestArchive(folder).close();
  const bytes = readFileSync(archive);
  bytes.fill(0, 4 * 4096, 20 * 4096);
  writeFileSync(archive, bytes);
  const words = ['--browser', '--no-open', '--data', folder];
  const run = spawnSync(process.execPath, [...program, ...words], { encoding: 'utf8' });
  expect([run.status, run.stdout]).toEqual([3, '']);
  // A first start may have said before it that it builds.
  const [line, ...more] = run.stderr.split('\n').filter((one) => one.includes(folder));
  expect(more).toEqual([]);
  expect(line).toContain(`${archive}: the archive is damaged`);
  for (const verb of ['restore --from FILE', 'salvage'])
    expect(line).toContain(`npm run -s tiltwright -- archive ${verb} --data "${folder}"`);
  expect(readFileSync(archive).equals(bytes)).toBe(true);
}, 180_000);

/** Starts the program without a display, and gives what it printed once it is ready. */
async function started(words: readonly string[]) {
  const { DISPLAY: _x, WAYLAND_DISPLAY: _wayland, ...env } = process.env;
  const child = spawn(process.execPath, [...program, ...words, '--data', folder], { env });
  const printed = { out: '', err: '' };
  child.stderr.on('data', (piece) => {
    printed.err += String(piece);
  });
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
  await new Promise<void>((resolve, reject) => {
    child.stdout.on('data', (piece) => {
      printed.out += String(piece);
      if (printed.out.includes('\n')) resolve();
    });
    child.on('exit', () => reject(new Error(printed.err)));
  });
  return { child, printed, ended };
}

// The first start of an unbuilt tree builds the page, hence the patience.
it('the ready line is one line on standard output, the workbench answers, and a signal ends it well', async () => {
  const { child, printed, ended } = await started(['--browser', '--no-open']);
  expect(printed.out).toMatch(/^Workbench ready at http:\/\/127\.0\.0\.1:\d+\/#code=[\w-]{32}\n$/);
  expect(printed.err.replace('Building the workbench, once…\n', '')).toBe('');
  const link = printed.out.trim().split(' ').at(-1) ?? '';
  const { wire } = await openSocketWire(Number(new URL(link).port), await enter(link));
  const client = createClient(wire);
  const closed = new Promise((resolve) => {
    client.connection.onState((state) => state === 'closed' && resolve(true));
  });
  expect(await client.call('host.describe', {})).toMatchObject({ host: 'browser', recoveredSweeps: [] });
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
  expect(await closed).toBe(true);
  expect(existsSync(path.join(folder, 'tiltwright.sqlite-wal'))).toBe(false);
}, 180_000);

it('warns of a folder that a program copies elsewhere, in one line, and works in it all the same', async () => {
  mkdirSync(path.join(folder, '.stfolder'));
  const { child, printed, ended } = await started(['--browser', '--no-open']);
  const said = printed.err.replace('Building the workbench, once…\n', '');
  expect(said).toMatch(
    /^[^\n]+: a program copies this folder elsewhere .* start with --data and [^\n]+\.\n$/,
  );
  expect(printed.out).toMatch(/^Workbench ready at /);
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
}, 180_000);

it.runIf(process.platform === 'linux')(
  'without a display it says in one sentence why it opens no window',
  async () => {
    const { child, printed, ended } = await started(['--no-open']);
    expect(printed.err.replace('Building the workbench, once…\n', '')).toBe(
      'The workbench opens in the browser instead of a window of its own: there is no display here.\n',
    );
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  },
  180_000,
);
