import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { root } from './source-files.ts';

export type RunningWorkbench = Readonly<{
  url: string;
  /** Ends it as Ctrl+C would, and waits. */
  stop: () => Promise<void>;
  /** Ends it as a dying laptop would: no handler runs. */
  kill: () => Promise<void>;
}>;

/** Starts the workbench for the browser as `npm start` does, and waits for its ready line. */
export async function startWorkbench(dataDir: string): Promise<RunningWorkbench> {
  const words = ['electron/start.ts', '--browser', '--no-open', '--data', dataDir, '--port', '0'];
  const host = spawn(process.execPath, ['--import', './electron/node-floor.mjs', ...words], {
    cwd: root,
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said: string[] = [];
  host.stderr.on('data', (chunk) => said.push(String(chunk)));
  const url = await readyUrl(host, said);
  const end = async (signal: NodeJS.Signals) => {
    if (host.exitCode !== null || host.signalCode !== null) return;
    const exited = once(host, 'exit');
    host.kill(signal);
    await exited;
  };
  return { url, stop: () => end('SIGTERM'), kill: () => end('SIGKILL') };
}

async function readyUrl(host: ChildProcess, said: readonly string[]): Promise<string> {
  if (host.stdout === null) throw new Error('the workbench has no output');
  for await (const line of createInterface({ input: host.stdout })) {
    const url = /^Workbench ready at (http:\/\/127\.0\.0\.1:\d+\/\S*)$/.exec(line)?.[1];
    if (url !== undefined) return url;
  }
  throw new Error(`the workbench did not start: ${said.join('')}`);
}

export const samplePath = (name: string): string => join(root, 'sample-sweeps', name);
