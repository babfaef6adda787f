import { describe, expect, it } from 'vitest';
import { Refused } from '../../core/bridge/refused.ts';
import { refuse } from '../../core/result.ts';
import { MeterFault } from '../../electron/backend/meters/meter-shop.ts';
import { answered, oneLine, outcomeOfFault, outputOf, refused } from '../../electron/cli/outcome.ts';
import type { Verb } from '../../electron/cli/verb.ts';
import { archive } from '../../electron/cli/verbs/archive.ts';
import { runInside, runOutside } from '../support/command-line.ts';

// Exit codes and streams: contract, section 3.
describe('an outcome', () => {
  it.each([
    [null, 0],
    ['pass', 0],
    ['fail', 1],
  ] as const)('with the verdict %s exits with %i', (verdict, exitCode) => {
    expect(outputOf(answered({ a: 1 }, 'one\n', verdict), true)).toEqual({
      stdout: '{"a":1}\n',
      stderr: '',
      exitCode,
    });
    expect(outputOf(answered({ a: 1 }, 'one\n', verdict), false).stdout).toBe('one\n');
  });

  it('that is a refusal is one line on standard error, whatever the name of the file', () => {
    const outcome = refused(refuse('x', 'a\nb\u0007.csv', 'name\tit better'));
    expect(outputOf(outcome, true)).toEqual({
      stdout: '',
      stderr: 'a b?.csv: name it better\n',
      exitCode: 2,
    });
  });

  it('of a meter that failed still answers what was read', () => {
    const answer = { json: { complete: false }, text: 'two readings' };
    const output = outputOf({ kind: 'failed', where: 'port', help: 'plug it in', answer }, true);
    expect(output).toEqual({ stdout: '{"complete":false}\n', stderr: 'port: plug it in\n', exitCode: 3 });
  });

  it('comes from what is thrown', () => {
    const refusal = refuse('x', 'here', 'so');
    expect(outcomeOfFault(new Refused(refusal))).toEqual({ kind: 'refused', refusal });
    expect(outcomeOfFault(new MeterFault('lost', 'port', 'plug it in'))).toMatchObject({
      kind: 'failed',
      where: 'port',
    });
    expect(outcomeOfFault(new Error('odd'))).toMatchObject({ kind: 'failed', help: 'odd' });
    expect(outcomeOfFault('odd')).toMatchObject({ kind: 'failed', help: 'odd' });
    expect(oneLine(' a\r\nb ')).toBe('a b');
  });
});

describe('the program', () => {
  const echo: Verb = {
    name: 'echo',
    summary: 'says it again',
    register: (program, run) => {
      program
        .command('echo')
        .argument('<word>')
        .option('--json', 'one object')
        .option('--times <n>', 'how often', Number)
        .action((word: string, _options: unknown, command) =>
          run(command, (io) => {
            if (word === 'throw') throw new RangeError('our own fault');
            io.say('saying');
            io.note('a note\nof two lines');
            return answered({ word }, word);
          }),
        );
    },
  };

  it('keeps standard output to the one object with --json', async () => {
    expect(await runInside([echo], ['echo', 'a', '--json'])).toEqual({
      stdout: '{"word":"a"}\n',
      stderr: 'a note of two lines\n',
      exitCode: 0,
    });
    expect((await runInside([echo], ['echo', 'a'])).stdout).toBe('saying\na\n');
  });

  it.each([
    [[], /^tiltwright: name a verb: echo; see/],
    [['eco', 'a'], /unknown command 'eco'; did you mean echo\?; see tiltwright --help/],
    [['echo'], /^tiltwright echo: missing required argument 'word'; see tiltwright echo --help/],
    [['echo', 'a', 'b'], /too many arguments/],
    [['echo', 'a', '--time'], /unknown option '--time'; did you mean --times\?/],
    [['--loud'], /unknown option '--loud'/],
  ])('refuses %j in one line', async (args, line) => {
    const ran = await runInside([echo], args);
    expect(ran).toMatchObject({ stdout: '', exitCode: 2 });
    expect(ran.stderr).toMatch(line);
    expect(ran.stderr.trimEnd()).not.toContain('\n');
  });

  it('asks for the part of a verb that has several, in one line', async () => {
    const ran = await runInside([archive], ['archive']);
    expect(ran).toEqual({
      stdout: '',
      stderr: 'tiltwright archive: say what to do with it; see tiltwright archive --help\n',
      exitCode: 2,
    });
  });

  it('helps on standard output', async () => {
    const help = await runInside([echo], ['--help']);
    expect(help).toMatchObject({ stderr: '', exitCode: 0 });
    expect(help.stdout).toContain('echo');
    expect(help.stdout).toContain('Exit: 0 done');
    expect((await runInside([echo], ['echo', '--help'])).stdout).toContain('--times');
    expect(await runInside([echo], ['--version'])).toMatchObject({ stdout: '0.0.0-test\n', exitCode: 0 });
  });

  it('turns a fault of its own into one line and exit 3', async () => {
    expect(await runInside([echo], ['echo', 'throw', '--json'])).toEqual({
      stdout: '',
      stderr: 'tiltwright: our own fault\n',
      exitCode: 3,
    });
  });
});

describe('in a process of its own', () => {
  it('has a version and a help that names every verb', async () => {
    expect(await runOutside(['--version'])).toMatchObject({ stderr: '', exitCode: 0 });
    const { stdout } = await runOutside(['--help']);
    for (const verb of ['fit', 'propose']) expect(stdout).toContain(verb);
  });

  it('refuses with exit 2 and nothing on standard output', async () => {
    const ran = await runOutside(['fit', 'no-such-file.csv', '--json']);
    expect(ran).toEqual({
      stdout: '',
      stderr: 'no-such-file.csv: there is no such file; check the path\n',
      exitCode: 2,
    });
  });
});
