import { contextBridge, ipcRenderer } from 'electron';
import { frameChannel, preloadName } from '../../core/bridge/preload-channel.ts';

/** Frames out and frames in, and nothing else: what a frame may ask is decided by the contract, not here. */
contextBridge.exposeInMainWorld(preloadName, {
  send(frame: unknown): void {
    ipcRenderer.send(frameChannel, frame);
  },
  receive(listener: (frame: unknown) => void): () => void {
    // The event itself stays here: it would hand the page a way to every other channel.
    const heard = (_event: unknown, frame: unknown) => listener(frame);
    ipcRenderer.on(frameChannel, heard);
    return () => {
      ipcRenderer.off(frameChannel, heard);
    };
  },
});
