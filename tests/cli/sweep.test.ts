import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { readSweepCsv } from '../../core/files/sweep-csv.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { openPtyMeter } from '../../electron/backend/meters/simulated/pty.ts';
import { runProgram, type Surroundings } from '../../electron/cli/program.ts';
import { sweep } from '../../electron/cli/verbs/sweep.ts';
import { openTestPty } from '../support/pty.ts';

const folder = mkdtempSync(join(tmpdir(), 'tiltwright-sweep-'));
afterAll(() => rmSync(folder, { recursive: true }));
const inFolder = (name: string) => join(folder, name);
const plan158 = inFolder('plan-158.json');
const plan3 = inFolder('plan-3.json');
/** The plain line protocol without the two seconds that a board needs to start. */
const quickLine = inFolder('quick-line.json');
beforeAll(() => {
  const frequenciesMhz = Array.from({ length: 158 }, (_, i) => 57 + 6 * i);
  writeFileSync(plan158, JSON.stringify({ format: 'tiltwright-plan/1', frequenciesMhz }));
  const three = { format: 'tiltwright-plan/1', frequenciesMhz: [57, 423, 711], testPointLossDb: 20 };
  writeFileSync(plan3, JSON.stringify(three));
  const line = JSON.parse(readFileSync('electron/backend/meters/profiles/line.json', 'utf8'));
  writeFileSync(quickLine, JSON.stringify({ ...line, name: 'quick-line', settleMs: 0 }));
});

async function tiltwright(args: readonly string[], signal: AbortSignal = new AbortController().signal) {
  const out = { stdout: '', stderr: '' };
  const around: Surroundings = {
    version: '0',
    stdout: (text) => {
      out.stdout += text;
    },
    stderrIsTerminal: false,
    stderr: (text) => {
      out.stderr += text;
    },
    signal,
  };
  const exitCode = await runProgram([sweep], args, around);
  return { exitCode, ...out };
}
const lineCount = (text: string) => text.split('\n').filter((line) => line !== '').length;

describe.skipIf(process.platform === 'win32')('sweep', () => {
  const atEnd: (() => Promise<unknown>)[] = [];
  afterEach(async () => {
    for (const end of atEnd.splice(0)) await end();
  });
  /** A meter that does something of its own at its 20th reading. */
  async function meterAt(readingMs = 0, at20: () => void = () => undefined) {
    const pty = await openTestPty((frequencyMhz, draw) => {
      if (draw === 20) at20();
      return frequencyMhz / 100;
    }, readingMs);
    atEnd.push(() => pty.unplug());
    return pty;
  }

  it("answers one object: readings with the plan's test point loss added, the meter, and that it is complete", async () => {
    const { path } = await meterAt();
    const { exitCode, stdout, stderr } = await tiltwright([
      'sweep',
      '--port',
      path,
      '--plan',
      plan3,
      '--json',
    ]);
    expect([exitCode, stderr, lineCount(stdout)]).toEqual([0, '', 1]);
    const answer = JSON.parse(stdout);
    expect(answer.complete).toBe(true);
    expect(answer.meter).toEqual({
      identity: 'Quillmere Instrument Works,Bench Level Meter,QIW-0042,1.0',
      maker: 'Quillmere Instrument Works',
      model: 'Bench Level Meter',
      serialNumber: 'QIW-0042',
      firmware: '1.0',
    });
    expect(answer.testPointLossDb).toBe(20);
    const levels = answer.readings.map((row: { frequencyMhz: number; levelDbmv: number }) => [
      row.frequencyMhz,
      row.levelDbmv,
    ]);
    expect(levels).toEqual([
      [57, 20.57],
      [423, 24.23],
      [711, 27.11],
    ]);
    expect(answer.readings[0].takenAt).toMatch(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/);
  });

  it('makes each level the mean of as many readings as it is told, and says so in the file', async () => {
    const asked = new Map<number, number>();
    const pty = await openTestPty((frequencyMhz) => {
      const times = asked.get(frequencyMhz) ?? 0;
      asked.set(frequencyMhz, times + 1);
      return frequencyMhz / 100 + 0.4 * (times % 3);
    });
    atEnd.push(() => pty.unplug());
    const file = inFolder('mean.csv');
    const args = ['sweep', '--port', pty.path, '--plan', plan3, '--repeats', '3', '--out', file, '--json'];
    const { exitCode, stdout } = await tiltwright(args);
    expect(exitCode).toBe(0);
    // The mean of 0, 0.4 and 0.8 dB more than the level, and the test point's 20 dB.
    expect(JSON.parse(stdout).readings.map((row: { levelDbmv: number }) => row.levelDbmv.toFixed(2))).toEqual(
      ['20.97', '24.63', '27.51'],
    );
    expect(readFileSync(file, 'utf8')).toContain('# each level: the mean of 3 readings\n');
    expect(Math.min(...asked.values())).toBe(3);
    for (const repeats of ['0', '17', '2.5']) {
      const refused = await tiltwright([...args.slice(0, 6), repeats]);
      expect([refused.exitCode, lineCount(refused.stderr)]).toEqual([2, 1]);
    }
  });

  it('warns of a calibration that is past, and keeps the day in the file', async () => {
    const meterOf = async (calibratedOn: string) => {
      const instrument = new LineInstrument({ source: (mhz) => mhz / 100, calibratedOn });
      const pty = await openPtyMeter(instrument, { messageMs: 0, readingMs: 0 });
      atEnd.push(() => pty.unplug());
      const file = inFolder(`calibrated-${calibratedOn}.csv`);
      const args = ['sweep', '--port', pty.path, '--plan', plan3, '--profile', quickLine, '--out', file];
      const ran = await tiltwright(args);
      expect(ran.exitCode).toBe(0);
      expect(readFileSync(file, 'utf8')).toContain(`# calibrated: ${calibratedOn}\n`);
      return ran.stderr;
    };
    expect(await meterOf('2019-02-28')).toContain("the meter's calibration is past since 2020-02-28");
    const today = new Date().toISOString().slice(0, 10);
    expect(await meterOf(today)).not.toContain('calibration');
  });

  it('says each reading as it comes, and says so where there is no level', async () => {
    const pty = await openTestPty((frequencyMhz) => (frequencyMhz === 423 ? null : 1.25));
    atEnd.push(() => pty.unplug());
    const { exitCode, stdout } = await tiltwright(['sweep', '--port', pty.path, '--plan', plan3]);
    expect(exitCode).toBe(0);
    expect(stdout).toMatch(/57 MHz +21\.\d +dBmV\n423 MHz +no level\n711 MHz/);
    expect(stdout).toMatch(/Complete: 3 of 3/);
  });

  it('answers what was read when the meter is lost in the middle, with exit 3 and one line', async () => {
    const pty = await meterAt(5, () => void pty.unplug());
    const args = ['sweep', '--port', pty.path, '--plan', plan158, '--wait-s', '0', '--json'];
    const run = await tiltwright(args);
    expect(run.exitCode).toBe(3);
    expect(lineCount(run.stderr)).toBe(1);
    expect(run.stderr).toContain(pty.path);
    const answer = JSON.parse(run.stdout);
    expect(answer.complete).toBe(false);
    // The first reading is asked twice: there is none before it to hold it against.
    expect(answer.readings).toHaveLength(19);
  });

  it('answers what was read when it is stopped, and is not at fault', async () => {
    const stop = new AbortController();
    const pty = await meterAt(5, () => stop.abort());
    const run = await tiltwright(['sweep', '--port', pty.path, '--plan', plan158, '--json'], stop.signal);
    expect(run.exitCode).toBe(0);
    expect(run.stderr).toMatch(/^stopped: 19 of 158 read\n$/);
    expect(JSON.parse(run.stdout).complete).toBe(false);
  });

  it('ends when it is stopped before the meter has answered', async () => {
    const { path } = await meterAt();
    const run = await tiltwright(['sweep', '--port', path, '--plan', plan3, '--json'], AbortSignal.abort());
    expect([run.exitCode, run.stdout, lineCount(run.stderr)]).toEqual([3, '', 1]);
  });

  it('writes a sweep file that this program reads, and never writes over one', async () => {
    const { path } = await meterAt();
    const file = inFolder('out.csv');
    const args = ['sweep', '--port', path, '--plan', plan3, '--out', file];
    expect((await tiltwright(args)).exitCode).toBe(0);
    const read = readSweepCsv(readFileSync(file, 'utf8'), file);
    if (!read.ok) throw new Error(read.help);
    expect(read.value.rows.map(({ frequencyMhz, levelDbmv }) => [frequencyMhz, levelDbmv])).toEqual([
      [57, 20.57],
      [423, 24.23],
      [711, 27.11],
    ]);
    const again = await tiltwright(args);
    expect(again.exitCode).toBe(2);
    expect(again.stderr).toMatch(/never written over/);
  });
});

describe('sweep refuses', () => {
  it.each([
    ['a port that is not there', ['--port', '/dev/ttyNONE7', '--plan', plan3], 3, /no such port/],
    ['a profile that nobody has', ['--port', 'COM3', '--plan', plan3, '--profile', 'x'], 2, /there is scpi/],
    ['a plan that is not there', ['--port', 'COM3', '--plan', inFolder('none')], 2, /no such file/],
    ['a plan that is none', ['--port', 'COM3', '--plan', 'package.json'], 2, /package\.json/],
    ['no port', ['--plan', plan3], 2, /--port/],
    [
      'a scenario for a real meter',
      ['--port', 'COM3', '--plan', plan3, '--station-id', 'x'],
      2,
      /simulated only/,
    ],
    [
      'a station of nowhere',
      ['--port', 'simulated', '--plan', plan3, '--station-id', 'x'],
      2,
      /Quillmere has/,
    ],
    ['a port of nowhere', ['--port', 'simulated', '--plan', plan3, '--port-name', 'x'], 2, /forward output/],
    [
      'a file that is no scenario',
      ['--port', 'simulated', '--plan', plan3, '--scenario', 'package.json'],
      2,
      /format/,
    ],
  ])('%s', async (_what, args, exitCode, line) => {
    const run = await tiltwright(['sweep', ...args, '--json']);
    expect(run).toMatchObject({ exitCode, stdout: '' });
    expect(run.stderr).toMatch(line);
    expect(lineCount(run.stderr)).toBe(1);
  });
});

it('reads the simulated meter of this process, at a station of its own choice', async () => {
  const at = async (id: string) => {
    const args = ['sweep', '--port', 'simulated', '--station-id', id, '--plan', plan3, '--json'];
    const { exitCode, stdout } = await tiltwright(args);
    expect(exitCode).toBe(0);
    return JSON.parse(stdout).readings.map((row: { levelDbmv: number }) => row.levelDbmv);
  };
  // Its story is that it reads low, most of all at the top.
  const inOrder = await at('qm4-03-ropewalk');
  const low = await at('qm4-07-mill-lane');
  expect(low[2]).toBeLessThan(inOrder[2] - 1);
});

describe.skipIf(process.platform === 'win32')('in two shells', () => {
  const children: ChildProcess[] = [];
  afterEach(() => {
    for (const child of children.splice(0)) child.kill('SIGKILL');
  });
  const program = ['--import', './electron/node-floor.mjs', 'electron/cli/main.ts'];

  async function simulated(...args: string[]) {
    const child = spawn(process.execPath, [...program, 'simulate', '--pty', ...args], {
      stdio: ['ignore', 'pipe', 'ignore'],
    });
    children.push(child);
    const lines = createInterface({ input: child.stdout });
    const path = await new Promise<string>((resolve) => lines.once('line', resolve));
    return { child, path };
  }

  it('simulate --pty and sweep --port read 158 channels with no error', { timeout: 60_000 }, async () => {
    const { child, path } = await simulated('--pace-ms', '5');
    const { stdout, stderr, code } = await new Promise<{ stdout: string; stderr: string; code: number }>(
      (resolve) =>
        execFile(
          process.execPath,
          [...program, 'sweep', '--port', path, '--plan', plan158, '--json'],
          (fault, stdout, stderr) => resolve({ stdout, stderr, code: Number(fault?.code ?? 0) }),
        ),
    );
    expect([code, stderr]).toEqual([0, '']);
    const answer = JSON.parse(stdout);
    expect(answer.complete).toBe(true);
    expect(answer.readings).toHaveLength(158);
    const ended = new Promise((resolve) => child.once('exit', (exitCode) => resolve(exitCode)));
    child.kill('SIGINT');
    expect(await ended).toBe(0);
  });

  it('keeps every reading in the file of a process that is killed in the middle', {
    timeout: 60_000,
  }, async () => {
    const { path } = await simulated('--pace-ms', '20');
    const file = inFolder('killed.csv');
    const child = spawn(
      process.execPath,
      [...program, 'sweep', '--port', path, '--plan', plan158, '--out', file],
      { stdio: ['ignore', 'pipe', 'inherit'] },
    );
    children.push(child);
    let said = 0;
    for await (const _line of createInterface({ input: child.stdout })) {
      said += 1;
      if (said === 20) child.kill('SIGKILL');
    }
    const read = readSweepCsv(readFileSync(file, 'utf8'), file);
    if (!read.ok) throw new Error(read.help);
    // The last one may have been said while it was on its way to the disk.
    expect(read.value.rows.length).toBeGreaterThanOrEqual(said - 1);
    expect(read.value.rows.length).toBeLessThan(158);
  });
});
