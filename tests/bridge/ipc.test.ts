import type { IpcMain, WebContents } from 'electron';
import { beforeAll } from 'vitest';
import type { Emit } from '../../core/bridge/contract.ts';
import { preloadName } from '../../core/bridge/preload-channel.ts';
import { keepBackend } from '../../electron/main/backend-keeper.ts';
import { runBackendService } from '../../electron/main/backend-service.ts';
import { type IpcHost, joinWindow } from '../../electron/main/ipc-host.ts';
import { builtPreload, fakeIpc, fakeProcess, runPreload } from '../support/fake-electron.ts';
import { bridgeSuite } from './bridge-suite.ts';

let preload = '';
beforeAll(async () => {
  preload = (await builtPreload()).code;
});

// The real preload, relay, keeper and service; only Electron's own objects are stand-ins. One window is one client, so
// each further client is a window, a process and a backend of its own, and an event is given to all of them.
bridgeSuite('Electron IPC', async (handlers) => {
  const faults: unknown[] = [];
  const emits: Emit[] = [];
  const ends: (() => Promise<void>)[] = [];
  const onFault = (_where: string, fault: unknown) => faults.push(fault);
  return {
    emit(name, data) {
      for (const emit of emits) emit(name, data);
    },
    faults,
    async join() {
      const ipc = fakeIpc();
      const process = fakeProcess();
      let page: IpcHost | null = null;
      const keeper = keepBackend({
        start() {
          void runBackendService({
            port: process.port,
            async openBackend({ emit }) {
              emits.push(emit);
              const nothing = async () => {};
              return { handlers, close: nothing, suspend: nothing, resume: nothing };
            },
            dataDir: 'nowhere',
            onFault,
            exit: (code) => process.die(code),
          });
          return process.parentSide;
        },
        toPage: (frame) => page?.toPage(frame),
        onFault,
        nowMs: () => 0,
        closeWithinMs: 1000,
      });
      page = joinWindow({
        ipcMain: ipc.ipcMain as unknown as IpcMain,
        contents: ipc.contents as unknown as WebContents,
        fromPage: keeper.fromPage,
        pageGone: keeper.pageGone,
        onFault,
      });
      ends.push(() => keeper.close());
      const wire = runPreload(preload, ipc.ipcRenderer).exposed.get(preloadName);
      if (wire === undefined) throw new Error('the preload exposed nothing');
      return { wire, goAway: () => ipc.contents.emit('render-process-gone') };
    },
    async close() {
      for (const end of ends) await end();
    },
  };
});
