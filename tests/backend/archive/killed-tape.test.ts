import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import { expect, it, onTestFinished, vi } from 'vitest';
import { rereadSweep } from '../../../electron/backend/services/sweep-reread.ts';
import { openTestArchive, stationFile, throwAwayFolder } from '../../support/archive.ts';

vi.setConfig({ testTimeout: 60_000 });
const program = fileURLToPath(new URL('taped-child.ts', import.meta.url));

// Readings told before the kill, and the meter's pace: 0 puts many readings into one transaction, 30 gives each its own.
it.each([
  [3, 30],
  [40, 4],
  [300, 0],
  [900, 0],
])(
  'a program killed after %i readings, at %i ms a reading, leaves their bytes, and they say the same',
  async (count, paceMs) => {
    const folder = throwAwayFolder();
    const child = spawn(process.execPath, [program, folder, stationFile(), String(paceMs)], {
      stdio: ['ignore', 'pipe', 'inherit'],
    });
    onTestFinished(() => {
      child.kill('SIGKILL');
    });
    let text = '';
    child.stdout.setEncoding('utf8').on('data', (more: string) => {
      text += more;
    });
    const told = () => text.split('\n').length - 1;
    while (told() < count) {
      expect(child.exitCode).toBeNull();
      await new Promise((resolve) => setTimeout(resolve, 1));
    }
    child.kill('SIGKILL');
    await once(child, 'close');

    const sweepId = text.split('\n')[0]?.split(' ')[1] ?? '';
    const archive = openTestArchive(folder);
    onTestFinished(() => archive.close());
    const sweep = archive.sweeps.byId(sweepId);
    if (sweep === undefined) throw new Error('the sweep is gone');
    expect(sweep.state).toBe('partial');
    expect(sweep.readingCount).toBeGreaterThanOrEqual(told());
    const again = await rereadSweep({ archive }, sweep);
    expect(again).toMatchObject({ kept: true, same: true });
    expect(again.readings.length).toBeGreaterThanOrEqual(sweep.readingCount);
  },
);
