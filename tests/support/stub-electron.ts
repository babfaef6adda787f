import { EventEmitter } from 'node:events';

// What the built main process imports as 'electron' when a test runs it in a plain Node: enough to come up to its
// window, and a line on standard output for each thing that it asked for.
const say = (what: string, facts: unknown = null) =>
  process.stdout.write(`${JSON.stringify({ what, facts })}\n`);

export const app = Object.assign(new EventEmitter(), {
  setPath: () => {},
  requestSingleInstanceLock: () => true,
  whenReady: async () => {},
  quit: () => say('quit'),
  exit: (code: number) => process.exit(code),
});
export const ipcMain = new EventEmitter();
export const powerMonitor = new EventEmitter();
export const powerSaveBlocker = { start: () => 1, stop: () => true };
export const protocol = {
  registerSchemesAsPrivileged: () => {},
  async handle(_scheme: string, answer: (request: Request) => Promise<Response>) {
    say('page', (await answer(new Request('tiltwright://workbench/index.html'))).status);
  },
};
export const session = {
  defaultSession: Object.assign(new EventEmitter(), {
    setPermissionRequestHandler: () => {},
    setPermissionCheckHandler: () => {},
    setDevicePermissionHandler: () => {},
  }),
};
export class BrowserWindow extends EventEmitter {
  readonly webContents = Object.assign(new EventEmitter(), {
    setWindowOpenHandler: () => {},
    isDestroyed: () => false,
    send: () => {},
  });
  constructor(options: unknown) {
    super();
    say('window', options);
  }
  async loadURL(url: string): Promise<void> {
    say('load', url);
    process.exitCode = 0;
  }
}
export const utilityProcess = {
  fork(file: string, words: readonly string[]) {
    say('fork', { file, words });
    return Object.assign(new EventEmitter(), { postMessage: () => {}, kill: () => true });
  },
};
