import { EventEmitter } from 'node:events';
import path from 'node:path';
import type { BrowserWindowConstructorOptions } from 'electron';
import { describe, expect, it } from 'vitest';
import { pageUrl } from '../../electron/main/page-files.ts';
import { runWorkbench, type Shell } from '../../electron/main/workbench.ts';
import { fakeIpc, fakeProcess } from '../support/fake-electron.ts';

const settle = () => new Promise((resolve) => setTimeout(resolve, 10));

/** Electron's objects, as far as the workbench asks, with a log of what was asked. */
function fakeShell(isFirst = true) {
  const log: string[] = [];
  const ipc = fakeIpc();
  const app = Object.assign(new EventEmitter(), {
    setPath: (name: string, to: string) => log.push(`path ${name} ${to}`),
    requestSingleInstanceLock: () => {
      log.push('lock');
      return isFirst;
    },
    whenReady: async () => log.push('ready'),
    quit() {
      log.push('quit');
      app.emit('before-quit', { preventDefault: () => log.push('quit held back') });
    },
    exit: () => {},
  });
  const contents = Object.assign(ipc.contents, {
    setWindowOpenHandler: () => log.push('no new windows'),
    reload: () => log.push('reload'),
  });
  const window = Object.assign(new EventEmitter(), {
    webContents: contents,
    loadURL: async (url: string) => log.push(`load ${url}`),
    show: () => log.push('show'),
    isMinimized: () => true,
    restore: () => log.push('restore'),
    focus: () => log.push('focus'),
  });
  const session = Object.assign(new EventEmitter(), {
    setPermissionRequestHandler: () => log.push('no permissions'),
    setPermissionCheckHandler: () => {},
    setDevicePermissionHandler: () => {},
  });
  const powerMonitor = new EventEmitter();
  const processes: ReturnType<typeof fakeProcess>[] = [];
  const options: BrowserWindowConstructorOptions[] = [];
  const shell = {
    app,
    ipcMain: ipc.ipcMain,
    protocol: {
      registerSchemesAsPrivileged: (schemes: unknown[]) => log.push(`scheme ${JSON.stringify(schemes)}`),
      handle: (scheme: string) => log.push(`handle ${scheme}`),
    },
    powerMonitor,
    powerSaveBlocker: { start: () => 1, stop: () => true },
    session: () => session,
    createWindow(given: BrowserWindowConstructorOptions) {
      log.push('window');
      options.push(given);
      return window;
    },
    startBackend() {
      const process = fakeProcess();
      processes.push(process);
      return process.parentSide;
    },
  } as unknown as Shell;
  const clock = { nowMs: 0 };
  const faults: string[] = [];
  const run = () =>
    runWorkbench(shell, {
      dataDir: '/data',
      builtDir: '/built',
      onFault: (where) => faults.push(where),
      nowMs: () => clock.nowMs,
    });
  return { run, log, app, window, contents, powerMonitor, processes, options, faults, clock };
}

describe('the Electron program', () => {
  it('shuts every door before it loads the page', async () => {
    const { run, log, options, processes, window } = fakeShell();
    await run();
    expect(log).toEqual([
      `path userData ${path.join('/data', 'window')}`,
      'lock',
      'scheme [{"scheme":"tiltwright","privileges":{"standard":true,"secure":true}}]',
      'ready',
      'no permissions',
      'handle tiltwright',
      'window',
      'no new windows',
      `load ${pageUrl}`,
    ]);
    expect(options[0]?.webPreferences?.preload).toBe(path.join('/built', 'preload', 'preload.cjs'));
    expect(options[0]?.show).toBe(false);
    expect(processes.length).toBe(1);
    window.emit('ready-to-show');
    expect(log.at(-1)).toBe('show');
  });

  it('is one for a data folder: the second leaves, the first comes to the front', async () => {
    const second = fakeShell(false);
    await second.run();
    expect(second.log.slice(1, 3)).toEqual(['lock', 'quit']);
    expect(second.processes.length).toBe(0);
    const first = fakeShell();
    await first.run();
    first.app.emit('second-instance');
    expect(first.log.slice(-2)).toEqual(['restore', 'focus']);
  });

  it('tells the backend that the computer goes to sleep, and that it woke', async () => {
    const { run, powerMonitor, processes } = fakeShell();
    await run();
    // One that is not ready holds no port.
    powerMonitor.emit('suspend');
    processes[0]?.port.postMessage({ kind: 'ready' });
    await settle();
    powerMonitor.emit('suspend');
    powerMonitor.emit('resume');
    expect(processes[0]?.sent).toEqual([{ kind: 'suspend' }, { kind: 'resume' }]);
  });

  it('quits only when the backend has closed its archive', async () => {
    const { run, log, app, processes } = fakeShell();
    await run();
    app.emit('window-all-closed');
    await settle();
    expect(log.slice(-2)).toEqual(['quit', 'quit held back']);
    expect(processes[0]?.sent).toEqual([{ kind: 'close' }]);
    processes[0]?.port.postMessage({ kind: 'closed' });
    await settle();
    expect(log.slice(-1)).toEqual(['quit']);
  });

  it('loads a page again that crashed, but not for ever', async () => {
    const { run, log, contents, faults, clock } = fakeShell();
    await run();
    for (let i = 0; i < 3; i += 1) contents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(log.filter((line) => line === 'reload').length).toBe(2);
    expect(faults).toEqual(['window', 'window', 'window']);
    clock.nowMs = 61_000;
    contents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(log.filter((line) => line === 'reload').length).toBe(3);
  });
});
