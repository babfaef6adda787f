import { execFile, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, expect, it } from 'vitest';
import { simulatedMeterDbmv } from '../../core/simulate/level.ts';
import { quillmere } from '../../core/simulate/quillmere.ts';
import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { runProgram } from '../../electron/cli/program.ts';
import { simulate } from '../../electron/cli/verbs/simulate.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-simulate-'));
afterAll(() => rmSync(folder, { recursive: true }));
const never = new AbortController().signal;
const unix = it.skipIf(process.platform === 'win32');

/** Runs the verb until the test stops it; gives the path as soon as it is printed. */
async function started(...args: string[]) {
  const stop = new AbortController();
  let stdout = '';
  let stderr = '';
  const printed = Promise.withResolvers<string>();
  const exit = runProgram([simulate], ['simulate', ...args], {
    version: '0',
    stdout: (text) => {
      stdout += text;
      printed.resolve(stdout.split('\n')[0] ?? '');
    },
    stderrIsTerminal: false,
    stderr: (text) => {
      stderr += text;
    },
    signal: stop.signal,
  });
  const path = await Promise.race([printed.promise, exit.then(() => '')]);
  const end = async () => {
    stop.abort();
    return { exitCode: await exit, stdout, stderr };
  };
  return { path, end };
}

unix('prints the path of a pseudo-terminal first, and cleans up when it is stopped', async () => {
  const { path, end } = await started('--pty');
  expect(path).toMatch(/^\/dev\//);
  expect(existsSync(path)).toBe(true);
  const { exitCode, stdout } = await end();
  expect(exitCode).toBe(0);
  expect(stdout.startsWith(`${path}\n`)).toBe(true);
  expect(existsSync(path)).toBe(false);
});

unix("plays a scenario's own levels, at the temperature that it is told", async () => {
  const demo = quillmere.find(({ station }) => station.id === 'qm4-07-mill-lane');
  if (demo === undefined) throw new Error('Mill Lane is gone');
  const scenario = { ...demo.scenario, noiseDb: 0 };
  const file = join(folder, 'scenario.json');
  const stationFile = join(folder, 'station.json');
  writeFileSync(file, JSON.stringify(scenario));
  writeFileSync(stationFile, JSON.stringify(demo.station));
  const { path, end } = await started(
    ...['--pty', '--scenario', file, '--station', stationFile, '--port-name', 'forward output'],
    ...['--ambient-c', '-5', '--pace-ms', '0'],
  );
  const shop = createMeterShop({ now: () => new Date(0) });
  const meter = await shop.connect({ kind: 'serial', path, profile: 'scpi' }, never);
  const { value: reading } = await meter.readLevels([711], never).next();
  await meter.close();
  await end();
  const pluggedIn = Object.fromEntries(
    demo.station.positions.map(({ name, installed }) => [name, installed]),
  );
  const probe = { station: demo.station, portName: 'forward output', pluggedIn, ambientC: -5 };
  expect(reading?.meterDbmv).toBeCloseTo(simulatedMeterDbmv(scenario, probe, 711, 0) ?? Number.NaN, 1);
});

unix('plays a scenario alone at a station without plug-ins and test points', async () => {
  const ports = [
    {
      portName: 'generator',
      carriers: [{ kind: 'cw', firstMhz: 711, stepMhz: 6, count: 1, widthMhz: 6 }],
      source: { lowMhz: 54, lowDbmv: 12.5, highMhz: 870, highDbmv: 12.5, shape: 'linear' },
      cable: null,
      gain: null,
      madeUpFor: null,
      gainControl: null,
      faults: [],
    },
  ];
  const file = join(folder, 'generator.json');
  const scenario = { format: 'tiltwright-scenario/1', seed: 1, noiseDb: 0, weatherC: 20, ports };
  writeFileSync(file, JSON.stringify(scenario));
  const { path, end } = await started('--pty', '--scenario', file, '--pace-ms', '0');
  const shop = createMeterShop({ now: () => new Date(0) });
  const meter = await shop.connect({ kind: 'serial', path, profile: 'scpi' }, never);
  const levels: (number | null)[] = [];
  for await (const { meterDbmv } of meter.readLevels([711, 423], never)) levels.push(meterDbmv);
  await meter.close();
  await end();
  expect(levels).toEqual([12.5, null]);
});

it('says in one line that it needs --pty, and refuses what is no scenario', async () => {
  const { end } = await started();
  const without = await end();
  expect(without).toMatchObject({ exitCode: 2, stdout: '' });
  expect(without.stderr).toMatch(/^tiltwright simulate: .*--pty.*\n$/);
  const wrong = await (await started('--pty', '--scenario', 'package.json')).end();
  expect(wrong).toMatchObject({ exitCode: 2, stdout: '' });
  expect(wrong.stderr).toMatch(/^package\.json.*\n$/);
});

unix('ends on SIGTERM as on Ctrl-C, and its terminal goes with it', { timeout: 60_000 }, async () => {
  const child = spawn(
    process.execPath,
    ['--import', './electron/node-floor.mjs', 'electron/cli/main.ts', 'simulate', '--pty'],
    { stdio: ['ignore', 'pipe', 'ignore'] },
  );
  const lines = createInterface({ input: child.stdout });
  const path = await new Promise<string>((resolve) => lines.once('line', resolve));
  expect(existsSync(path)).toBe(true);
  const ended = new Promise((resolve) => child.once('exit', (code) => resolve(code)));
  child.kill('SIGTERM');
  expect(await ended).toBe(0);
  expect(existsSync(path)).toBe(false);
});

unix('answers plain shell tools too: nothing is echoed', async () => {
  const { path, end } = await started('--pty', '--pace-ms', '0');
  const script = `exec 3<>"${path}"; printf '*IDN?\\n' >&3; head -n 1 <&3`;
  const answer = await new Promise<string>((resolve, reject) =>
    execFile('sh', ['-c', script], { timeout: 5000 }, (fault, stdout) =>
      fault ? reject(fault) : resolve(stdout),
    ),
  );
  await end();
  expect(answer.trim()).toBe('Quillmere Instrument Works,Bench Level Meter,QIW-0042,1.0');
});
