import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { propose } from '../../electron/cli/verbs/propose.ts';
import { runInside, runOutside } from '../support/command-line.ts';
import { root } from '../support/source-files.ts';

const sample = (name: string) => join(root, 'sample-sweeps', name);
const folder = mkdtempSync(join(tmpdir(), 'tiltwright-propose-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const run = (...args: string[]) => runInside([propose], ['propose', ...args]);

const sweep = sample('07-mill-lane.as-found.csv');
const station = sample('07-mill-lane.station.json');
const input = sample('07-mill-lane.forward-input.csv');
/** The station with one key changed, as a file. */
const changed = (name: string, change: object): string => {
  const path = join(folder, name);
  writeFileSync(path, JSON.stringify({ ...JSON.parse(readFileSync(station, 'utf8')), ...change }));
  return path;
};

describe('propose', () => {
  it('prints the keys of the contract', async () => {
    const ran = await run(sweep, '--station', station, '--input-sweep', input, '--json');
    expect(ran).toMatchObject({ stderr: '', exitCode: 0 });
    const found = JSON.parse(ran.stdout);
    for (const choice of [found.best, found.recommended, ...found.alternatives])
      expect(choice).toEqual({
        values: expect.any(Object),
        changes: expect.any(Array),
        worstDb: expect.any(Number),
        flatnessDb: expect.any(Number),
        fit: { lowDbmv: expect.any(Number), highDbmv: expect.any(Number), tiltDb: expect.any(Number) },
      });
    expect(found.feasible).toBe(true);
    expect(found.before.worstDb).toBeGreaterThan(found.recommended.worstDb);
    expect(found.recommended.changes).toContainEqual({ position: 'input equalizer', from: 12, to: 14 });
    expect(found.recommended.changes).toContainEqual({ position: 'input pad', from: 12, to: 10 });
  });

  it('says what to change, what it will give, and that a limit was not applied', async () => {
    const { stdout } = await run(sweep, '--station', station);
    expect(stdout).toMatch(/input pad +12 +to +10 dB/);
    expect(stdout).toMatch(/Now +worst 2\.\d dB .*\nThen +worst 0\.\d dB/);
    expect(stdout).toContain('was not applied');
  });

  it('takes the port, and the slack', async () => {
    const back = await run(
      ...[sample('03-ropewalk.return-output.csv'), '--station', sample('03-ropewalk.station.json')],
      ...['--port', 'return output', '--json'],
    );
    expect(JSON.parse(back.stdout).recommended.changes).toEqual([]);
    const loose = await run(sweep, '--station', station, '--slack', '5', '--json');
    expect(JSON.parse(loose.stdout).recommended.changes).toEqual([]);
  });

  it('takes the truck, the notes and the uncertainty, and says what they add', async () => {
    const all = [
      '--truck',
      sample('truck.json'),
      '--notes',
      sample('07-mill-lane.notes.json'),
      '--uncertainty',
    ];
    const given = [sweep, '--station', station, '--input-sweep', input, ...all, '--ambient-c', '-5'];
    const found = JSON.parse((await run(...given, '--json')).stdout);
    expect(found.predicted).toHaveLength(found.count);
    expect(found.predicted[0]).toEqual({
      ...{
        frequencyMhz: 57,
        levelDbmv: expect.any(Number),
        uDb: expect.any(Number),
        toNextUDb: expect.any(Number),
      },
    });
    expect(found.why).toMatchObject({ dominant: 'tilt' });
    expect(found.pareto[0].changes).toEqual([]);
    const { stdout } = await run(...given);
    expect(stdout).toMatch(/Predicted levels are good to ±\d\.\d dB/);
    expect(stdout).toMatch(/^Tilt: /m);
    const none = join(folder, 'empty.json');
    writeFileSync(none, JSON.stringify({ format: 'tiltwright-truck/1', parts: [] }));
    const empty = JSON.parse((await run(sweep, '--station', station, '--truck', none, '--json')).stdout);
    expect(empty.recommended.changes).toEqual([]);
    expect(empty.beyondTruck.bestWorstDb).toBeLessThan(empty.best.worstDb - 0.25);
    expect(empty.beyondTruck.lacks).toContainEqual({ kind: 'equalizer', topMhz: 870, valueDb: 14, count: 1 });
    const words = (await run(sweep, '--station', station, '--truck', none)).stdout;
    expect(words).toContain(`${empty.beyondTruck.text}\n`);
  });

  it('exits with 1 when nothing keeps the stage input within its limits', async () => {
    const limit = JSON.parse(readFileSync(station, 'utf8')).stageInput;
    const high = changed('high.json', { stageInput: { ...limit, minDbmv: 40, maxDbmv: 41 } });
    const ran = await run(sweep, '--station', high, '--input-sweep', input, '--json');
    expect(ran.exitCode).toBe(1);
    expect(JSON.parse(ran.stdout)).toMatchObject({ feasible: false, recommended: expect.any(Object) });
  });

  it.each([
    ['no station', [sweep], /required option '--station <file>'/],
    ['a station that is none', [sweep, '--station', sweep], /07-mill-lane\.as-found\.csv: not a JSON file/],
    ['a truck that is none', [sweep, '--station', station, '--truck', station], /station\.json.*: .*truck/],
    ['notes that are none', [sweep, '--station', station, '--notes', station], /station\.json.*: .*notes/],
    ['an unknown key', [sweep, '--station', changed('key.json', { moon: 1 })], /key\.json: .*"moon"/],
    [
      'an unknown port',
      [sweep, '--station', station, '--port', 'side'],
      /station\.json, port "side": the station has/,
    ],
    ['a port without design', [sweep, '--station', station, '--port', 'forward input'], /has no design/],
    ['a negative slack', [sweep, '--station', station, '--slack', '-1'], /the slack in dB is 0 or more/],
    [
      'a sweep of another band',
      [sweep, '--station', station, '--port', 'return output'],
      /as-found\.csv, port .*5 and 42/,
    ],
  ])('refuses %s in one line', async (_what, args, line) => {
    const ran = await run(...args, '--json');
    expect(ran).toMatchObject({ stdout: '', exitCode: 2 });
    expect(ran.stderr).toMatch(line);
    expect(ran.stderr.split('\n')).toHaveLength(2);
  });

  it("answers the README's example in a process of its own", async () => {
    const ran = await runOutside([
      'propose',
      'sample-sweeps/07-mill-lane.as-found.csv',
      '--station',
      'sample-sweeps/07-mill-lane.station.json',
    ]);
    expect(ran).toMatchObject({ stderr: '', exitCode: 0 });
    expect(ran.stdout).toContain('input equalizer  12  to  14 dB');
  });
});
