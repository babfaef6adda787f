import { execFile } from 'node:child_process';
import { resolve } from 'node:path';
import { runProgram } from '../../electron/cli/program.ts';
import type { Verb } from '../../electron/cli/verb.ts';
import { root } from './source-files.ts';

export type Ran = Readonly<{ stdout: string; stderr: string; exitCode: number }>;

/** A command line inside this process. */
export async function runInside(
  verbs: readonly Verb[],
  args: readonly string[],
  stderrIsTerminal = false,
): Promise<Ran> {
  let stdout = '';
  let stderr = '';
  const exitCode = await runProgram(verbs, args, {
    version: '0.0.0-test',
    signal: new AbortController().signal,
    stderrIsTerminal,
    stdout: (text) => {
      stdout += text;
    },
    stderr: (text) => {
      stderr += text;
    },
  });
  return { stdout, stderr, exitCode };
}

/** The same in a process of its own, as `npm run -s tiltwright` starts it. */
export const runOutside = (args: readonly string[], cwd: string = root): Promise<Ran> =>
  new Promise((settle) => {
    const program = [
      '--import',
      resolve(root, 'electron/node-floor.mjs'),
      resolve(root, 'electron/cli/main.ts'),
    ];
    execFile(process.execPath, [...program, ...args], { cwd }, (fault, stdout, stderr) => {
      settle({ stdout, stderr, exitCode: fault === null ? 0 : Number(fault.code) });
    });
  });
