import type { IpcMain, IpcMainEvent, WebContents } from 'electron';
import type { OnFault } from '../../core/bridge/dispatch.ts';
import { frameChannel } from '../../core/bridge/preload-channel.ts';
import { pageOrigin } from './page-files.ts';

export type IpcHostOptions = Readonly<{
  ipcMain: Pick<IpcMain, 'on' | 'off'>;
  contents: Pick<WebContents, 'send' | 'isDestroyed' | 'on'>;
  fromPage(frame: unknown): void;
  pageGone(): void;
  onFault: OnFault;
}>;

export type IpcHost = Readonly<{ toPage(frame: unknown): void; close(): void }>;

/** Relays frames between the one window and the backend. Only the window's own top frame, on our page, is heard. */
export function joinWindow({ ipcMain, contents, fromPage, pageGone, onFault }: IpcHostOptions): IpcHost {
  const isOurPage = (event: IpcMainEvent): boolean => {
    const frame = event.senderFrame;
    return (
      event.sender === contents && frame !== null && frame.parent === null && frame.origin === pageOrigin
    );
  };
  const heard = (event: IpcMainEvent, frame: unknown) => {
    if (isOurPage(event)) fromPage(frame);
    else onFault('ipc', new Error('a frame from somewhere else than our page was dropped'));
  };
  ipcMain.on(frameChannel, heard);
  contents.on('render-process-gone', pageGone);
  contents.on('destroyed', pageGone);
  return {
    toPage(frame) {
      if (contents.isDestroyed()) return;
      try {
        contents.send(frameChannel, frame);
      } catch (fault) {
        // Between a crash of the page and our hearing of it there is nobody to send to.
        onFault('ipc', fault);
      }
    },
    close: () => ipcMain.off(frameChannel, heard),
  };
}
