import { EventEmitter } from 'node:events';
import { mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createContext, runInContext } from 'node:vm';
import { build } from 'vite';
import type { Wire } from '../../core/bridge/client.ts';
import { preloadConfig } from '../../electron/builds.ts';
import type { BackendProcess } from '../../electron/main/backend-keeper.ts';
import type { ParentPort } from '../../electron/main/backend-service.ts';
import { pageOrigin } from '../../electron/main/page-files.ts';

export const projectRoot = path.join(import.meta.dirname, '../..');

/** The preload built into a folder of its own: the names of its files, and the text of the one that counts. */
export async function builtPreload(): Promise<Readonly<{ files: string[]; code: string }>> {
  const outDir = mkdtempSync(path.join(tmpdir(), 'tiltwright-preload-'));
  await build(preloadConfig(projectRoot, outDir));
  return { files: readdirSync(outDir), code: readFileSync(path.join(outDir, 'preload.cjs'), 'utf8') };
}

export type Preloaded = Readonly<{ exposed: Map<string, Wire>; required: string[] }>;

/** Runs a built preload as Electron's sandbox does: no Node, no module, one require that knows one name. */
export function runPreload(code: string, ipcRenderer: unknown): Preloaded {
  const exposed = new Map<string, Wire>();
  const required: string[] = [];
  const contextBridge = { exposeInMainWorld: (name: string, api: Wire) => exposed.set(name, api) };
  const context = createContext({
    require(name: string) {
      required.push(name);
      if (name !== 'electron') throw new Error(`the sandbox has no module ${name}`);
      return { contextBridge, ipcRenderer };
    },
  });
  runInContext(code, context, { filename: 'preload.cjs' });
  return { exposed, required };
}

export type FakeIpc = ReturnType<typeof fakeIpc>;

/** `ipcMain`, one window's contents and its `ipcRenderer`: what is sent is cloned and arrives later. */
export function fakeIpc() {
  const ipcMain = new EventEmitter();
  const ipcRenderer = new EventEmitter();
  const contents = Object.assign(new EventEmitter(), {
    destroyed: false,
    isDestroyed: () => contents.destroyed,
    send(channel: string, frame: unknown) {
      const copy: unknown = structuredClone(frame);
      setImmediate(() => ipcRenderer.emit(channel, {}, copy));
    },
  });
  const senderFrame = { parent: null, origin: pageOrigin };
  const rendererSide = Object.assign(ipcRenderer, {
    send(channel: string, frame: unknown) {
      const copy: unknown = structuredClone(frame);
      setImmediate(() => ipcMain.emit(channel, { sender: contents, senderFrame }, copy));
    },
  });
  return { ipcMain, contents, ipcRenderer: rendererSide, senderFrame };
}

/** A backend's process and its parent's end, joined in this process. */
export function fakeProcess() {
  const toParent = new EventEmitter();
  const toChild = new EventEmitter();
  const early: unknown[] = [];
  const sent: unknown[] = [];
  let dead = false;
  const die = (code: number) => {
    if (dead) return;
    dead = true;
    setImmediate(() => toParent.emit('exit', code));
  };
  const parentSide: BackendProcess = {
    send(message) {
      const copy: unknown = structuredClone(message);
      sent.push(copy);
      setImmediate(() => {
        if (dead) return;
        if (toChild.listenerCount('message') === 0) early.push(copy);
        else toChild.emit('message', copy);
      });
    },
    onMessage: (listener) => toParent.on('message', listener),
    onExit: (listener) => toParent.on('exit', listener),
    kill: () => die(143),
  };
  const port: ParentPort = {
    postMessage(message) {
      const copy: unknown = structuredClone(message);
      if (!dead) setImmediate(() => toParent.emit('message', copy));
    },
    onMessage(listener) {
      toChild.on('message', listener);
      for (const message of early.splice(0)) listener(message);
    },
  };
  return { parentSide, port, die, sent };
}
