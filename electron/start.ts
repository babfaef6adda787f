import { spawn } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import path from 'node:path';
import { Refused } from '../core/bridge/refused.ts';
import { refusalLine } from '../core/result.ts';
import { dataFolder, folderWarningOf } from './backend/data-folder.ts';
import { withBuildLock } from './build-lock.ts';
import { type BuiltPart, needsBuild } from './built-from.ts';
import { findRuntime, thisMachine } from './electron-runtime.ts';
import { readStartOptions, type StartOptions } from './start-options.ts';

const root = path.join(import.meta.dirname, '..');
const say = (line: string) => process.stderr.write(`${line}\n`);

async function ensureBuilt(part: BuiltPart): Promise<void> {
  if (!needsBuild(root, part)) return;
  say('Building the workbench, once…');
  const { buildPart } = await import('./builds.ts');
  await withBuildLock(
    root,
    () => needsBuild(root, part),
    () => buildPart(root, part),
  );
}

// A window that fails does so at once: a missing library, or a system that forbids the sandbox.
const earlyMs = 10_000;

/** Runs Electron until its window is closed; false when it could not start. */
function runWindow(runtime: string, dataDir: string): Promise<boolean> {
  const startedMs = performance.now();
  return new Promise((resolve) => {
    const main = path.join(root, 'dist', 'main', 'main.mjs');
    const window = spawn(runtime, [main, `--data=${dataDir}`], { stdio: 'inherit' });
    const pass = (signal: NodeJS.Signals) => window.kill(signal);
    process.on('SIGINT', pass).on('SIGTERM', pass);
    const ended = (well: boolean) => {
      process.off('SIGINT', pass).off('SIGTERM', pass);
      const wasOpen = performance.now() - startedMs > earlyMs;
      if (!well && wasOpen) process.exitCode = 3;
      resolve(well || wasOpen);
    };
    window.on('error', () => ended(false));
    window.on('exit', (code) => ended(code === 0));
  });
}

const closeWithinMs = 8000;

async function runBrowser(options: StartOptions, dataDir: string): Promise<void> {
  const { openBackend } = await import('./backend/backend.ts');
  const { serveBrowser } = await import('./serve-browser.ts');
  const { firstCodeForMs, laterCodeForMs } = await import('./loopback/server.ts');
  const host = await serveBrowser({ root, dataDir, port: options.port, openBackend });
  // Before the ready line: whoever reads it may send a signal at once.
  let closing = false;
  const close = () => {
    // npm passes a signal on that the terminal has already sent to everybody: the second one says nothing new.
    if (closing) return;
    closing = true;
    setTimeout(() => process.exit(1), closeWithinMs).unref();
    host.close().then(
      () => process.exit(0),
      () => process.exit(3),
    );
  };
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, close);
  const link = host.link(firstCodeForMs);
  process.stdout.write(`Workbench ready at ${link}\n`);
  if (options.open) {
    const { openBrowser } = await import('./open-browser.ts');
    openBrowser(link);
  }
  if (process.stdin.isTTY) {
    say('Press Enter for a new link, Ctrl+C to stop.');
    process.stdin.on('data', () => process.stdout.write(`Workbench ready at ${host.link(laterCodeForMs)}\n`));
  }
}

/** One line, and the exit code of a refused input. */
function refused(line: string): void {
  say(line);
  process.exitCode = 2;
}

async function start(words: readonly string[]): Promise<void> {
  const read = readStartOptions(words);
  if (!read.ok) return refused(refusalLine(read));
  const options = read.value;
  const dataDir = dataFolder(options.data);
  try {
    mkdirSync(dataDir, { recursive: true });
  } catch {
    return refused(`${dataDir}: no folder can be made there; name another with --data`);
  }
  const warning = folderWarningOf(dataDir);
  if (warning !== null) say(`${dataDir}: ${warning}.`);
  await ensureBuilt('page');
  if (!options.browser) {
    const runtime = await findRuntime(thisMachine(root));
    if ('file' in runtime) {
      await ensureBuilt('window');
      if (await runWindow(runtime.file, dataDir)) return;
    }
    const why = 'why' in runtime ? runtime.why : 'Electron could not start here';
    say(`The workbench opens in the browser instead of a window of its own: ${why}.`);
  }
  await runBrowser(options, dataDir);
}

start(process.argv.slice(2)).catch((fault: unknown) => {
  say(fault instanceof Error ? fault.message : String(fault));
  process.exit(fault instanceof Refused ? 2 : 3);
});
