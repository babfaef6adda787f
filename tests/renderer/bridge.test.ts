// @vitest-environment jsdom
import { expect, it } from 'vitest';
import { socketWire } from '../../renderer/bridge.ts';

class Socket extends EventTarget {
  readyState: number = WebSocket.CONNECTING;
  readonly sent: string[] = [];
  send(text: string) {
    this.sent.push(text);
  }
  opens() {
    this.readyState = WebSocket.OPEN;
    this.dispatchEvent(new Event('open'));
  }
}
const wireOver = () => {
  const socket = new Socket();
  return { socket, wire: socketWire(socket as unknown as WebSocket) };
};

it('keeps what is sent before the socket opens, in order', () => {
  const { socket, wire } = wireOver();
  wire.send({ a: 1 });
  wire.send({ a: 2 });
  expect(socket.sent).toEqual([]);
  socket.opens();
  wire.send({ a: 3 });
  expect(socket.sent).toEqual(['{"a":1}', '{"a":2}', '{"a":3}']);
});

it('gives frames to the listener until it stops listening', () => {
  const { socket, wire } = wireOver();
  const heard: unknown[] = [];
  const stop = wire.receive((frame) => heard.push(frame));
  socket.dispatchEvent(new MessageEvent('message', { data: '{"type":"gone"}' }));
  stop();
  socket.dispatchEvent(new MessageEvent('message', { data: '{"type":"gone"}' }));
  expect(heard).toEqual([{ type: 'gone' }]);
});

it('says why the socket closed: in the words of the host, or in its own', () => {
  const told: string[] = [];
  const { socket, wire } = wireOver();
  wire.onClosed?.((why) => told.push(why));
  socket.dispatchEvent(new CloseEvent('close', { reason: 'the workbench was closed' }));
  socket.dispatchEvent(new CloseEvent('close'));
  expect(told[0]).toBe('the workbench was closed');
  expect(told[1]).toContain('open the link that the program printed');
});
