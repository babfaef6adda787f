import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { openPtyMeter } from '../../electron/backend/meters/simulated/pty.ts';
import { meterCheck } from '../../electron/cli/verbs/meter-check.ts';
import { throwAwayFolder } from '../support/archive.ts';
import { runInside } from '../support/command-line.ts';
import { openTestPty, tellingSource } from '../support/pty.ts';

const check = (...args: string[]) => runInside([meterCheck], ['meter-check', ...args]);
const line = JSON.parse(readFileSync('electron/backend/meters/profiles/line.json', 'utf8'));
const fileOf = (changed: object) => {
  const file = join(throwAwayFolder(), 'mine.json');
  writeFileSync(file, JSON.stringify({ ...line, name: 'mine', settleMs: 0, ...changed }));
  return file;
};

it('says of a file alone whether it is a profile', async () => {
  expect(await check('--profile', fileOf({}))).toMatchObject({ exitCode: 0, stderr: '' });
  const broken = await check('--profile', fileOf({ colour: 'red' }));
  expect(broken.exitCode).toBe(2);
  expect(broken.stderr).toMatch(/mine\.json: .*"colour"/);
  expect((await check('--profile', 'scpi', '--port', 'COM3', '--at-mhz', '3001')).exitCode).toBe(2);
});

describe.skipIf(process.platform === 'win32')('with a meter', () => {
  const lineMeter = async () => {
    const instrument = new LineInstrument({ source: tellingSource, calibratedOn: '2026-01-15' });
    const pty = await openPtyMeter(instrument, { messageMs: 0, readingMs: 0 });
    onTestFinished(() => pty.unplug());
    return pty.path;
  };

  it('shows question, answer and what was understood', async () => {
    const path = await lineMeter();
    const ran = await check('--profile', fileOf({}), '--port', path, '--at-mhz', '711.25');
    expect(ran.exitCode).toBe(0);
    expect(ran.stdout).toContain('> READ 711.250');
    expect(ran.stdout).toContain('< 711.250 7.11 dBmV OK');
    expect(ran.stdout).toContain('calibratedOn = 2026-01-15');
    expect(ran.stdout).toMatch(/serialNumber = QIW-0100/);
    expect(ran.stdout).toMatch(/Every answer reads as the profile says/);
  });

  it('shows what is not understood, and what stays silent, and goes on', async () => {
    const identify = { ...line.identify, ask: 'WHO?', timeoutMs: 200 };
    const level = { ...line.level, answers: [[{ is: 'number', name: 'level', kind: 'any' }]] };
    const ran = await check('--profile', fileOf({ identify, level }), '--port', await lineMeter(), '--json');
    expect(ran.exitCode).toBe(1);
    const { exchanges, problems } = JSON.parse(ran.stdout);
    expect(problems).toBe(2);
    const steps = Object.fromEntries(exchanges.map((one: { step: string }) => [one.step, one]));
    expect(steps.identify).toMatchObject({ heard: 'ERR 1 unknown command', understood: null });
    expect(steps.calibration).toMatchObject({ problem: null });
    expect(steps.level).toMatchObject({ heard: '57.000 0.57 dBmV OK', understood: null });
  });

  it.each(['scpi', 'scpi-trace', 'scpi-trace-block'])('finds nothing wrong with %s', async (name) => {
    const pty = await openTestPty();
    onTestFinished(() => pty.unplug());
    const ran = await check('--profile', name, '--port', pty.path, '--json');
    expect(JSON.parse(ran.stdout)).toMatchObject({ profile: name, problems: 0 });
    expect(ran.exitCode).toBe(0);
  });
});
