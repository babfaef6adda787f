import { once } from 'node:events';
import { WebSocket } from 'ws';
import type { Wire } from '../../core/bridge/client.ts';

const originOf = (port: number) => `http://127.0.0.1:${port}`;

/** What the door's script does with a link: changes its code for the cookie, here as a header for later requests. */
export async function enter(link: string): Promise<string> {
  const { origin, hash } = new URL(link);
  const answer = await fetch(`${origin}/session`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin },
    body: JSON.stringify({ code: hash.replace('#code=', '') }),
  });
  if (answer.status !== 204) throw new Error(`the code was not taken: ${answer.status}`);
  return (answer.headers.get('set-cookie') ?? '').split(';')[0] ?? '';
}

export type SocketWire = Readonly<{ wire: Wire; socket: WebSocket }>;

/** A browser's WebSocket as a wire: JSON texts, opened with our origin and cookie. */
export async function openSocketWire(
  port: number,
  cookie: string,
  headers: Readonly<Record<string, string>> = {},
): Promise<SocketWire> {
  const socket = new WebSocket(`ws://127.0.0.1:${port}/socket`, {
    headers: { origin: originOf(port), cookie, ...headers },
  });
  await once(socket, 'open');
  socket.on('error', () => {});
  const wire: Wire = {
    send: (frame) => socket.send(JSON.stringify(frame)),
    receive(listener) {
      const heard = (data: unknown) => listener(JSON.parse(String(data)));
      socket.on('message', heard);
      return () => socket.off('message', heard);
    },
    onClosed(listener) {
      const closed = (code: number, reason: Buffer) => listener(`${code} ${reason}`);
      socket.on('close', closed);
      return () => socket.off('close', closed);
    },
  };
  return { wire, socket };
}
