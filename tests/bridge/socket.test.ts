import { once } from 'node:events';
import { expect, it } from 'vitest';
import { createClient } from '../../core/bridge/client.ts';
import { enter, openSocketWire } from '../support/loopback-client.ts';
import { testLoopback } from '../support/loopback-host.ts';
import { plainHandlers } from '../support/plain-handlers.ts';
import { bridgeSuite } from './bridge-suite.ts';

bridgeSuite('a WebSocket of the loopback host', async (handlers) => {
  const host = await testLoopback(handlers);
  const cookie = await enter(host.link(60_000));
  return {
    emit: host.emit,
    faults: host.faults,
    async join() {
      const { wire, socket } = await openSocketWire(host.port, cookie);
      return { wire, goAway: () => socket.terminate() };
    },
    close: () => host.close(),
  };
});

const withHost = async (use: (host: Awaited<ReturnType<typeof testLoopback>>) => Promise<void>) => {
  const host = await testLoopback(plainHandlers({ 'meters.disconnect': async () => ({}) }));
  try {
    await use(host);
  } finally {
    await host.close();
  }
};

it('closes a socket whose frame is beyond all measure, and rejects what waits on it', () =>
  withHost(async (host) => {
    const { wire, socket } = await openSocketWire(host.port, await enter(host.link(60_000)));
    const client = createClient(wire);
    await client.call('meters.disconnect', {});
    const call = client.call('stations.import', { fileName: 'a', text: 'x'.repeat(25 * 1024 * 1024) });
    const closed = once(socket, 'close');
    await expect(call).rejects.toMatchObject({ code: 'disconnected' });
    expect((await closed)[0]).toBe(1009);
    expect(client.connection.state()).toBe('closed');
    await expect(client.call('meters.disconnect', {})).rejects.toMatchObject({ code: 'disconnected' });
  }));

it('goes on after a text that is no JSON, and after a binary message', () =>
  withHost(async (host) => {
    const { wire, socket } = await openSocketWire(host.port, await enter(host.link(60_000)));
    const client = createClient(wire);
    socket.send('{"type":');
    socket.send(Buffer.from('{"type":"cancel","id":1}'));
    await client.call('meters.disconnect', {});
    expect(host.faults.length).toBe(2);
  }));

it('tells the pages in words when the host is closed', async () => {
  const host = await testLoopback(plainHandlers({}));
  const { wire } = await openSocketWire(host.port, await enter(host.link(60_000)));
  const client = createClient(wire);
  const why = new Promise<string>((resolve) => {
    client.connection.onState((state, reason) => {
      if (state === 'closed') resolve(reason);
    });
  });
  await host.close();
  expect(await why).toContain('the workbench was closed');
});
