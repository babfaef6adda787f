import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { expect, it, onTestFinished } from 'vitest';

const program = `
  import { watchSleep } from './electron/backend/meters/sleep-watch.ts';
  watchSleep((ms) => { process.stdout.write('slept ' + Math.round(ms / 1000) + '\\n'); process.exit(0); });
  setInterval(() => undefined, 100);
  process.stdout.write('awake\\n');`;

it.skipIf(process.platform === 'win32')(
  'notices that its process was stopped for more than five seconds (SIGSTOP, SIGCONT)',
  async () => {
    const child = spawn(process.execPath, ['--input-type=module-typescript', '-e', program], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    onTestFinished(() => void child.kill('SIGKILL'));
    const lines = createInterface({ input: child.stdout })[Symbol.asyncIterator]();
    expect((await lines.next()).value).toBe('awake');
    await new Promise((resolve) => setTimeout(resolve, 1500));
    child.kill('SIGSTOP');
    await new Promise((resolve) => setTimeout(resolve, 7200));
    child.kill('SIGCONT');
    const said = await lines.next();
    expect(said.value).toMatch(/^slept [678]$/);
  },
);
