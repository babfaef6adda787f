import { beforeAll, describe, expect, it } from 'vitest';
import { frameChannel, preloadName } from '../../core/bridge/preload-channel.ts';
import { builtPreload, fakeIpc, runPreload } from '../support/fake-electron.ts';

const settle = () => new Promise((resolve) => setTimeout(resolve, 10));

describe('the built preload', () => {
  let built: Awaited<ReturnType<typeof builtPreload>>;
  beforeAll(async () => {
    built = await builtPreload();
  });

  it('is one file, small, that names no module system', () => {
    expect(built.files).toEqual(['preload.cjs']);
    expect(built.code.length).toBeLessThan(3000);
    const spoken = built.code.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');
    expect(spoken).not.toMatch(/\bmodule\b|\bexports\b|\bimport\b|\bprocess\b|__dirname/);
  });

  it('requires Electron and nothing else, and gives the page two functions', () => {
    const { exposed, required } = runPreload(built.code, fakeIpc().ipcRenderer);
    expect(required).toEqual(['electron']);
    expect([...exposed.keys()]).toEqual([preloadName]);
    expect(Object.keys(exposed.get(preloadName) ?? {}).sort()).toEqual(['receive', 'send']);
  });

  it('sends and hears on one channel only, and gives no event of Electron’s to the page', async () => {
    const { ipcMain, contents, ipcRenderer } = fakeIpc();
    const wire = runPreload(built.code, ipcRenderer).exposed.get(preloadName);
    const sent: unknown[] = [];
    ipcMain.on(frameChannel, (_event, ...frames) => sent.push(frames));
    const heard: unknown[][] = [];
    const stop = wire?.receive((...words) => heard.push(words));
    wire?.send({ type: 'cancel', id: 1 });
    contents.send(frameChannel, 'frame');
    contents.send('another', 'secret');
    await settle();
    stop?.();
    contents.send(frameChannel, 'late');
    await settle();
    expect(sent).toEqual([[{ type: 'cancel', id: 1 }]]);
    expect(heard).toEqual([['frame']]);
    expect(ipcRenderer.listenerCount(frameChannel)).toBe(0);
  });
});
