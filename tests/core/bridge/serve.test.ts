import { describe, expect, it } from 'vitest';
import { contractVersion } from '../../../core/bridge/fingerprint.ts';
import type { HostFrame } from '../../../core/bridge/frames.ts';
import { serveClient } from '../../../core/bridge/serve.ts';
import { plainHandlers } from '../../support/plain-handlers.ts';

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));
const hello = { type: 'hello', contract: contractVersion() };
const request = (id: number) => ({ type: 'request', id, call: 'meters.find', input: {} });

/** A host whose one call ends when the test says so. */
function served(send?: (frame: HostFrame) => void) {
  const sent: HostFrame[] = [];
  const faults: string[] = [];
  const finish: (() => void)[] = [];
  const signals: AbortSignal[] = [];
  const client = serveClient({
    handlers: plainHandlers({
      'meters.find': (_input, signal) =>
        new Promise((resolve) => {
          signals.push(signal);
          finish.push(() => resolve({ ports: [], problem: null }));
        }),
    }),
    send: send ?? ((frame) => sent.push(frame)),
    onFault: (where) => faults.push(where),
    newStopper: () => new AbortController(),
  });
  return { client, sent, faults, finish, signals };
}

describe('one client of a host', () => {
  it('is answered once for each request, in the order in which they end', async () => {
    const { client, sent, finish } = served();
    client.receive(hello);
    client.receive(request(1));
    client.receive(request(2));
    await settle();
    finish[1]?.();
    await settle();
    finish[0]?.();
    await settle();
    expect(sent.map((frame) => ('id' in frame ? frame.id : frame.type))).toEqual(['hello', 2, 1]);
  });

  it('can not run two requests under one number', async () => {
    const { client, faults, signals } = served();
    client.receive(hello);
    client.receive(request(1));
    client.receive(request(1));
    await settle();
    expect(signals.length).toBe(1);
    expect(faults).toEqual(['frame']);
  });

  it('is sent nothing after it went away, and its requests are aborted', async () => {
    const { client, sent, finish, signals } = served();
    client.receive(hello);
    client.receive(request(1));
    await settle();
    client.close();
    client.close();
    finish[0]?.();
    client.receive(request(2));
    await settle();
    expect(signals.map((signal) => signal.aborted)).toEqual([true]);
    expect(sent.map((frame) => frame.type)).toEqual(['hello']);
  });

  it('that can not be reached does not bring the host down', async () => {
    const { client, faults } = served(() => {
      throw new Error('no such window');
    });
    client.receive(hello);
    await settle();
    expect(faults).toEqual(['send']);
  });
});
