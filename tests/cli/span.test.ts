import { describe, expect, it } from 'vitest';
import { span } from '../../electron/cli/verbs/span.ts';
import { runInside } from '../support/command-line.ts';
import { samplePath } from '../support/workbench.ts';

const run = (...args: string[]) => runInside([span], ['span', ...args]);
const mill = ['--received', samplePath('07-mill-lane.forward-input.csv')];
const sent = ['--station', samplePath('03-ropewalk.station.json')];

describe('span', () => {
  // cabl.com "CATV Formulas", worked example: 20 dB of .750 from 54 to 450 MHz tilt by 13.4 dB.
  it('prints the published example, from its loss', async () => {
    const args = ['--cable', '.750', '--loss-db', '20', '--high-mhz', '450', '--json'];
    const ran = await run(...args);
    expect(ran).toMatchObject({ exitCode: 0, stderr: '' });
    const answer = JSON.parse(ran.stdout);
    expect(answer.lossHighDb).toBeCloseTo(20, 9);
    expect(answer.tiltDb).toBeCloseTo(13.4, 0);
    expect(answer).toMatchObject({ cable: '.750', basis: 'from memory', check: null, perDegreeF: 0.0011 });
    expect(answer.days.map(({ day }: { day: string }) => day)).toEqual(['cold', 'now', 'hot']);
    expect(answer.lengthFt / answer.lengthM).toBeCloseTo(1 / 0.3048, 9);
  });
  it('takes the loss for that at 20 degrees C, whatever the cable has now', async () => {
    const lengthAt = async (nowC: string) =>
      JSON.parse((await run('--cable', '.750', '--loss-db', '20', '--now-c', nowC, '--json')).stdout).lengthM;
    expect(await lengthAt('-10')).toBe(await lengthAt('20'));
    expect((await run('--help')).stdout).toContain('at 20 degrees C');
  });
  it('takes feet as well as metres', async () => {
    const inFt = JSON.parse((await run('--cable', '.625', '--length-ft', '1000', '--json')).stdout);
    const inM = JSON.parse((await run('--cable', '.625', '--length-m', '304.8', '--json')).stdout);
    expect(inFt.lossHighDb).toBeCloseTo(inM.lossHighDb, 9);
  });
  it('finds that Mill Lane is fed through more cable than its notes say, and ends with 1', async () => {
    const ran = await run(
      '--cable',
      '.750',
      '--length-m',
      '379',
      '--now-c',
      '12',
      ...mill,
      ...sent,
      '--json',
    );
    expect(ran.exitCode).toBe(1);
    const { check } = JSON.parse(ran.stdout);
    expect(check).toMatchObject({ finding: 'longer', isUneven: false });
    // 2 dB more of a cable that loses 20 in 379 m: 38 m.
    expect(Math.abs(check.asIfLengthM - 417)).toBeLessThan(12);
    const text = (await run('--cable', '.750', '--length-m', '379', ...mill, ...sent)).stdout;
    expect(text).toContain('as a longer cable would');
  });
  it('finds it plausible with the cable that was hung', async () => {
    const ran = await run('--cable', '.750', '--length-m', '415', '--now-c', '12', ...mill, ...sent);
    expect(ran).toMatchObject({ exitCode: 0 });
    expect(ran.stdout).toContain('it loses what it should');
  });
  it.each([
    ['a cable that nobody knows', ['--cable', '.9', '--length-m', '1'], '.750'],
    ['no length', ['--cable', '.750'], '--length-m'],
    ['two lengths', ['--cable', '.750', '--length-m', '1', '--loss-db', '2'], 'one of'],
    [
      'drop cable beyond its table',
      ['--cable', 'RG-6', '--length-m', '30', '--high-mhz', '1200'],
      '1000 MHz',
    ],
    ['a sweep without its other end', ['--cable', '.750', '--length-m', '9', ...mill], '--sent'],
  ])('refuses %s', async (_what, args, word) => {
    const ran = await run(...args, '--json');
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toContain(word);
    expect(ran.stderr.trim().split('\n')).toHaveLength(1);
  });
});
