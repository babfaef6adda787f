import path from 'node:path';
import type {
  App,
  BrowserWindow,
  BrowserWindowConstructorOptions,
  IpcMain,
  PowerMonitor,
  PowerSaveBlocker,
  Protocol,
  Session,
} from 'electron';
import type { OnFault } from '../../core/bridge/dispatch.ts';
import { stayAwakeDuringSweeps } from './awake.ts';
import { type BackendProcess, type Keeper, keepBackend } from './backend-keeper.ts';
import { type IpcHost, joinWindow } from './ipc-host.ts';
import { pageScheme, pageUrl, servePageFiles } from './page-files.ts';
import { refuseNavigation, refusePermissions, windowOptions } from './window.ts';

/** Electron's objects as far as the workbench needs them; tests give stand-ins. */
export type Shell = Readonly<{
  app: Pick<App, 'setPath' | 'requestSingleInstanceLock' | 'quit' | 'exit' | 'on' | 'whenReady'>;
  ipcMain: Pick<IpcMain, 'on' | 'off'>;
  protocol: Pick<Protocol, 'registerSchemesAsPrivileged' | 'handle'>;
  powerSaveBlocker: Pick<PowerSaveBlocker, 'start' | 'stop'>;
  powerMonitor: Pick<PowerMonitor, 'on'>;
  session(): Session;
  createWindow(options: BrowserWindowConstructorOptions): BrowserWindow;
  startBackend(): BackendProcess;
}>;

export type WorkbenchOptions = Readonly<{
  dataDir: string;
  /** The folder of the built program: `renderer`, `preload` and `main` lie in it. */
  builtDir: string;
  onFault: OnFault;
  nowMs(): number;
}>;

const reloadsInAMinute = 2;

/** The Electron program: one window on the built page, one backend in a process of its own. */
export async function runWorkbench(shell: Shell, options: WorkbenchOptions): Promise<void> {
  const { app } = shell;
  const { dataDir, builtDir, onFault, nowMs } = options;
  // The lock is kept in this folder, so two data folders may be open at once and one may not be opened twice.
  app.setPath('userData', path.join(dataDir, 'window'));
  if (!app.requestSingleInstanceLock()) {
    app.quit();
    return;
  }
  // One call only: a second one would replace the first.
  shell.protocol.registerSchemesAsPrivileged([
    { scheme: pageScheme, privileges: { standard: true, secure: true } },
  ]);
  await app.whenReady();

  const session = shell.session();
  refusePermissions(session);
  shell.protocol.handle(pageScheme, servePageFiles(path.join(builtDir, 'renderer')));

  const awake = stayAwakeDuringSweeps(shell.powerSaveBlocker);
  const window = shell.createWindow(windowOptions(path.join(builtDir, 'preload', 'preload.cjs')));
  const contents = window.webContents;
  refuseNavigation(contents);

  let page: IpcHost | null = null;
  const keeper: Keeper = keepBackend({
    start: shell.startBackend,
    toPage(frame) {
      awake.saw(frame);
      page?.toPage(frame);
    },
    onFault,
    nowMs,
    closeWithinMs: 5000,
  });
  page = joinWindow({
    ipcMain: shell.ipcMain,
    contents,
    fromPage: keeper.fromPage,
    pageGone: keeper.pageGone,
    onFault,
  });

  // Nothing can hold a lid open: what runs is kept and the port closed, before the system takes the adapter's power.
  shell.powerMonitor.on('suspend', () => keeper.computer('suspend'));
  shell.powerMonitor.on('resume', () => keeper.computer('resume'));

  let reloadedAtMs: number[] = [];
  contents.on('render-process-gone', (_event, details) => {
    onFault('window', new Error(`the page's process ended: ${details.reason}`));
    reloadedAtMs = reloadedAtMs.filter((at) => nowMs() - at < 60_000);
    if (reloadedAtMs.length >= reloadsInAMinute) return;
    reloadedAtMs.push(nowMs());
    contents.reload();
  });
  app.on('second-instance', () => {
    if (window.isMinimized()) window.restore();
    window.focus();
  });

  let ended = false;
  const end = async () => {
    awake.rest();
    await keeper.close();
    page?.close();
    ended = true;
    app.quit();
  };
  app.on('window-all-closed', () => app.quit());
  app.on('before-quit', (event) => {
    if (ended) return;
    // The archive is closed first; the second quit is let through.
    event.preventDefault();
    void end();
  });
  window.once('ready-to-show', () => window.show());
  await window.loadURL(pageUrl);
}
