import { describe, expect, it } from 'vitest';
import { gainControl } from '../../electron/cli/verbs/gain-control.ts';
import { runInside } from '../support/command-line.ts';

const run = (...args: string[]) => runInside([gainControl], ['gain-control', ...args]);
const json = async (...args: string[]) => {
  const ran = await run(...args, '--json');
  return { ...ran, answer: JSON.parse(ran.stdout) };
};

// The numbers of the rules: common practice, no published source.
describe('gain-control', () => {
  it('prints the keys of the contract, null where nothing was asked', async () => {
    const { answer, exitCode, stderr } = await json('--top-mhz', '870');
    expect({ exitCode, stderr }).toEqual({ exitCode: 0, stderr: '' });
    expect(answer).toMatchObject({
      reserveDb: 4,
      reserveBasis: 'practice',
      ambientOffsetDb: null,
      ambientBasis: null,
      spanOffsetDb: null,
      range: null,
    });
  });

  it('answers all of it; a temperature may be below zero', async () => {
    const { answer, exitCode } = await json(
      ...[
        '--top-mhz',
        '810',
        '--ambient-c',
        '-30',
        '--span-db',
        '22',
        '--range-up',
        '4',
        '--range-down',
        '6',
      ],
    );
    expect(exitCode).toBe(0);
    expect(answer).toMatchObject({
      reserveDb: 3.75,
      reserveBasis: 'interpolated',
      ambientOffsetDb: -2,
      ambientBasis: 'practice',
      range: { verdict: 'pass', upDb: 4, downDb: 6, totalDb: 10 },
    });
    // 22 * 0.00198 * (-30 - 15.6), by hand.
    expect(answer.spanOffsetDb).toBeCloseTo(-1.986336, 9);
  });

  it('ends with 1 when the range test fails, with 0 when it is undecided', async () => {
    const range = (up: string, down: string) =>
      json('--top-mhz', '870', '--range-up', up, '--range-down', down);
    expect(await range('2', '6')).toMatchObject({ exitCode: 1, answer: { range: { verdict: 'fail' } } });
    expect(await range('2.9', '6.9')).toMatchObject({
      exitCode: 0,
      answer: { range: { verdict: 'undecided' } },
    });
    const stricter = await json(
      ...['--top-mhz', '870', '--range-up', '2.9', '--range-down', '6.9', '--uncertainty-db', '0'],
    );
    expect(stricter.exitCode).toBe(1);
  });

  it('says what its numbers rest on', async () => {
    const { stdout } = await run('--top-mhz', '1218', '--ambient-f', '90');
    expect(stdout).toContain('extrapolated from numbers of common practice, no published source');
    expect(stdout).toContain('interpolated between');
    expect(stdout).toContain('+1.0 dB');
  });

  it.each([
    [[], '--top-mhz'],
    [['--top-mhz', 'wide'], 'frequency'],
    [['--top-mhz', '0'], 'top frequency'],
    [['--top-mhz', '870', '--ambient-c', '20', '--ambient-f', '68'], 'not in both'],
    [['--top-mhz', '20000'], 'at most 10000'],
    [['--top-mhz', '870', '--ambient-c', '-300'], 'between -273 and 200 °C'],
    [['--top-mhz', '870', '--span-db', '22'], 'ambient'],
    [['--top-mhz', '870', '--range-up', '4'], 'range down'],
    [['--top-mhz', '870', '--range-up', '4', '--range-down', '-6'], '0 or more'],
  ])('refuses %j in one line', async (args, word) => {
    const ran = await run(...args, '--json');
    expect(ran).toMatchObject({ exitCode: 2, stdout: '' });
    expect(ran.stderr).toContain(word);
    expect(ran.stderr.trimEnd().split('\n')).toHaveLength(1);
  });
});
