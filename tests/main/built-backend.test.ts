import { spawn } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { pathToFileURL } from 'node:url';
import { build } from 'vite';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createClient, type Wire } from '../../core/bridge/client.ts';
import { mainConfig } from '../../electron/builds.ts';
import { FromBackend } from '../../electron/main/backend-message.ts';
import { projectRoot } from '../support/fake-electron.ts';

let dist = '';
beforeAll(async () => {
  // Inside the project, so that the built file finds its packages.
  mkdirSync(path.join(projectRoot, 'dist'), { recursive: true });
  dist = mkdtempSync(path.join(projectRoot, 'dist', 'test-'));
  await build(mainConfig(projectRoot, path.join(dist, 'main')));
});
afterAll(() => rmSync(dist, { recursive: true, force: true }));

// The bundle is what Electron runs: its native packages, its archive and its demo must work from where it lies.
it('the built backend opens an archive, serves the bridge and closes well', async () => {
  const dataDir = path.join(dist, 'data');
  const child = spawn(process.execPath, [
    '--import',
    pathToFileURL(path.join(projectRoot, 'tests/support/stub-parent-port.ts')).href,
    path.join(dist, 'main', 'backend-process.mjs'),
    `--data=${dataDir}`,
  ]);
  let complaints = '';
  child.stderr.on('data', (piece) => {
    complaints += String(piece);
  });
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
  const listeners = new Set<(frame: unknown) => void>();
  const ready = new Promise<void>((resolve, reject) => {
    createInterface({ input: child.stdout }).on('line', (line) => {
      const message = FromBackend.parse(JSON.parse(line));
      if (message.kind === 'ready') resolve();
      if (message.kind === 'frame') for (const listener of [...listeners]) listener(message.frame);
    });
    child.on('exit', () => reject(new Error(complaints)));
  });
  const tell = (message: unknown) => child.stdin.write(`${JSON.stringify(message)}\n`);
  await ready;
  const wire: Wire = {
    send: (frame) => tell({ kind: 'frame', frame }),
    receive(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
  const client = createClient(wire);
  expect(await client.call('host.describe', {})).toMatchObject({ host: 'window' });
  const { stationIds } = await client.call('demo.load', {});
  expect(stationIds.length).toBeGreaterThan(3);
  const { stations } = await client.call('stations.list', {});
  expect(stations.map((row) => row.stationId).sort()).toEqual([...stationIds].sort());
  tell({ kind: 'close' });
  expect(await ended).toBe(0);
  expect(existsSync(path.join(dataDir, 'tiltwright.sqlite'))).toBe(true);
  expect(complaints).toBe('');
});
