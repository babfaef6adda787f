import path from 'node:path';
import { parseArgs } from 'node:util';
import {
  app,
  BrowserWindow,
  ipcMain,
  powerMonitor,
  powerSaveBlocker,
  protocol,
  session,
  utilityProcess,
} from 'electron';
import { dataFolder } from '../backend/data-folder.ts';
import { createLog } from '../backend/log.ts';
import { faultsTo } from '../hosts/fault-log.ts';
import { runWorkbench } from './workbench.ts';

// Electron adds switches of its own to the list, so unknown ones are let pass here; `npm start` has checked ours.
const { values } = parseArgs({
  args: process.argv.slice(1),
  options: { data: { type: 'string' } },
  strict: false,
});
const dataDir = dataFolder(typeof values.data === 'string' ? values.data : undefined);
const onFault = faultsTo(createLog(dataDir));

runWorkbench(
  {
    app,
    ipcMain,
    protocol,
    powerMonitor,
    powerSaveBlocker,
    session: () => session.defaultSession,
    createWindow: (options) => new BrowserWindow(options),
    startBackend() {
      const file = path.join(import.meta.dirname, 'backend-process.mjs');
      const child = utilityProcess.fork(file, [`--data=${dataDir}`], { serviceName: 'Tiltwright backend' });
      return {
        send: (message) => child.postMessage(message),
        onMessage: (listener) => child.on('message', listener),
        onExit: (listener) => child.on('exit', listener),
        kill: () => child.kill(),
      };
    },
  },
  { dataDir, builtDir: path.join(import.meta.dirname, '..'), onFault, nowMs: () => performance.now() },
).catch((fault: unknown) => {
  onFault('start', fault);
  process.stderr.write(
    `Tiltwright's window could not be opened: ${fault instanceof Error ? fault.message : fault}\n`,
  );
  app.exit(1);
});
