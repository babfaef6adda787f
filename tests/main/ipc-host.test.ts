import type { IpcMain, WebContents } from 'electron';
import { describe, expect, it } from 'vitest';
import { frameChannel } from '../../core/bridge/preload-channel.ts';
import { joinWindow } from '../../electron/main/ipc-host.ts';
import { pageOrigin } from '../../electron/main/page-files.ts';
import { fakeIpc } from '../support/fake-electron.ts';

function joined() {
  const ipc = fakeIpc();
  const heard: unknown[] = [];
  const faults: string[] = [];
  let gone = 0;
  const host = joinWindow({
    ipcMain: ipc.ipcMain as unknown as IpcMain,
    contents: ipc.contents as unknown as WebContents,
    fromPage: (frame) => heard.push(frame),
    pageGone: () => {
      gone += 1;
    },
    onFault: (where) => faults.push(where),
  });
  return { ipc, host, heard, faults, gone: () => gone };
}

describe('the relay', () => {
  it('hears the window’s own page', () => {
    const { ipc, heard, faults } = joined();
    ipc.ipcMain.emit(frameChannel, { sender: ipc.contents, senderFrame: ipc.senderFrame }, 'frame');
    expect([heard, faults]).toEqual([['frame'], []]);
  });

  it.each([
    ['another window', { sender: {} }],
    ['a frame inside the page', { senderFrame: { parent: {}, origin: pageOrigin } }],
    ['a page from elsewhere', { senderFrame: { parent: null, origin: 'https://example.com' } }],
    ['a file', { senderFrame: { parent: null, origin: 'file://' } }],
    ['nobody any more', { senderFrame: null }],
  ])('does not hear %s', (_who, wrong) => {
    const { ipc, heard, faults } = joined();
    const event = { sender: ipc.contents, senderFrame: ipc.senderFrame, ...wrong };
    ipc.ipcMain.emit(frameChannel, event, 'frame');
    expect([heard, faults]).toEqual([[], ['ipc']]);
  });

  it('sends nothing to a window that is gone, and survives one that goes meanwhile', () => {
    const { ipc, host, faults } = joined();
    ipc.contents.send = () => {
      throw new Error('Render frame was disposed');
    };
    host.toPage('frame');
    expect(faults).toEqual(['ipc']);
    ipc.contents.destroyed = true;
    host.toPage('frame');
    expect(faults).toEqual(['ipc']);
  });

  it('tells the end of the page, and lets go at its own', () => {
    const { ipc, host, heard, gone } = joined();
    ipc.contents.emit('render-process-gone');
    ipc.contents.emit('destroyed');
    expect(gone()).toBe(2);
    host.close();
    ipc.ipcMain.emit(frameChannel, { sender: ipc.contents, senderFrame: ipc.senderFrame }, 'frame');
    expect(heard).toEqual([]);
  });
});
