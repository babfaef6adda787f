import type { WebSocket } from 'ws';
import type { Broadcast } from '../../core/bridge/broadcast.ts';
import type { Handlers } from '../../core/bridge/contract.ts';
import type { OnFault } from '../../core/bridge/dispatch.ts';
import type { HostFrame } from '../../core/bridge/frames.ts';
import { serveClient } from '../../core/bridge/serve.ts';

/** The longest text of a file is 20 million characters; what doesn't fit into this is closed with code 1009. */
export const maxFrameBytes = 24 * 1024 * 1024;

export type SocketHost = Readonly<{ handlers: Handlers; broadcast: Broadcast; onFault: OnFault }>;

/** One browser page over its WebSocket: a JSON text is a frame, and the page's requests end when the socket does. */
export function serveSocket(
  socket: Pick<WebSocket, 'send' | 'on' | 'OPEN' | 'readyState'>,
  { handlers, broadcast, onFault }: SocketHost,
): void {
  const send = (frame: HostFrame) => {
    if (socket.readyState === socket.OPEN) socket.send(JSON.stringify(frame));
  };
  const client = serveClient({ handlers, send, onFault, newStopper: () => new AbortController() });
  const leave = broadcast.join(send);
  socket.on('message', (data, isBinary) => {
    let frame: unknown;
    try {
      if (isBinary) throw new Error('a binary message is no frame');
      frame = JSON.parse(String(data));
    } catch (fault) {
      onFault('frame', fault);
      return;
    }
    client.receive(frame);
  });
  // An error is always followed by the close; without a listener it would end the program.
  socket.on('error', (fault) => onFault('socket', fault));
  socket.on('close', () => {
    leave();
    client.close();
  });
}
