import { type Client, createClient, type Wire } from '../core/bridge/client.ts';

/** What the preload of the desktop window puts into the page: frames out and in, nothing else. */
type Preloaded = Readonly<{
  send(frame: unknown): void;
  receive(listener: (frame: unknown) => void): () => void;
}>;

declare global {
  interface Window {
    readonly tiltwright?: Preloaded;
  }
}

/** A WebSocket as a wire. What is sent before it opens waits; how it ended is told once. */
export function socketWire(socket: WebSocket): Wire {
  const early: string[] = [];
  socket.addEventListener('open', () => {
    for (const frame of early.splice(0)) socket.send(frame);
  });
  return {
    send(frame) {
      const text = JSON.stringify(frame);
      if (socket.readyState === WebSocket.CONNECTING) early.push(text);
      else socket.send(text);
    },
    receive(listener) {
      const heard = (event: MessageEvent) => listener(JSON.parse(String(event.data)));
      socket.addEventListener('message', heard);
      return () => socket.removeEventListener('message', heard);
    },
    onClosed(listener) {
      const closed = (event: CloseEvent) =>
        listener(
          event.reason !== ''
            ? event.reason
            : 'the program behind this page has stopped, or this browser has no key to it: open the link that the program printed',
        );
      socket.addEventListener('close', closed);
      return () => socket.removeEventListener('close', closed);
    },
  };
}

/**
 * The typed client of this page: through the window's preload where there is one, else over the loopback socket, whose
 * door has changed the start code for a cookie before this page could load.
 */
export function connectBridge(): Client {
  if (window.tiltwright !== undefined) return createClient(window.tiltwright);
  const scheme = location.protocol === 'https:' ? 'wss' : 'ws';
  return createClient(socketWire(new WebSocket(`${scheme}://${location.host}/socket`)));
}
