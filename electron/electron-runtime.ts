import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';

/** What decides whether the window can be opened on this computer; a test gives its own. */
export type Machine = Readonly<{
  platform: NodeJS.Platform;
  env: Readonly<{ DISPLAY?: string | undefined; WAYLAND_DISPLAY?: string | undefined }>;
  isRoot: boolean;
  /** The folder of the `electron` package. */
  packageDir: string;
  /** Runs the package's own installer where the person can see it; true when it succeeded in time. */
  fetchRuntime(): Promise<boolean>;
}>;

export type Runtime = Readonly<{ file: string } | { why: string }>;

function installed(packageDir: string): string | null {
  const told = path.join(packageDir, 'path.txt');
  if (!existsSync(told)) return null;
  const file = path.join(packageDir, 'dist', readFileSync(told, 'utf8').trim());
  return existsSync(file) ? file : null;
}

/** The program that opens the window, or why there is none, as the second half of a sentence. */
export async function findRuntime(machine: Machine): Promise<Runtime> {
  if (machine.platform === 'linux') {
    if (!machine.env.DISPLAY && !machine.env.WAYLAND_DISPLAY) return { why: 'there is no display here' };
    if (machine.isRoot) return { why: "the window's sandbox does not run for the root user" };
  }
  if (!existsSync(path.join(machine.packageDir, 'package.json'))) return { why: 'Electron is not installed' };
  const there = installed(machine.packageDir);
  if (there !== null) return { file: there };
  if (!(await machine.fetchRuntime())) return { why: "Electron's runtime could not be fetched" };
  const fetched = installed(machine.packageDir);
  return fetched === null ? { why: "Electron's runtime is not where its installer says" } : { file: fetched };
}

const fetchWithinMs = 5 * 60_000;

export function thisMachine(root: string): Machine {
  const packageDir = path.join(root, 'node_modules', 'electron');
  return {
    platform: process.platform,
    env: process.env,
    isRoot: process.getuid?.() === 0,
    packageDir,
    fetchRuntime() {
      process.stderr.write('Fetching the Electron runtime, once…\n');
      return new Promise((resolve) => {
        const installer = spawn(process.execPath, [path.join(packageDir, 'install.js')], {
          // What it prints belongs on standard error: standard output carries the ready line.
          stdio: ['ignore', 2, 2],
          timeout: fetchWithinMs,
        });
        installer.on('error', () => resolve(false));
        installer.on('exit', (code) => resolve(code === 0));
      });
    },
  };
}
