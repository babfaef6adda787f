import { describe, expect, it } from 'vitest';
import { createClient, type Wire } from '../../../core/bridge/client.ts';
import { contractVersion } from '../../../core/bridge/fingerprint.ts';

/** A wire whose other end is the test. */
function openEnd() {
  const sent: unknown[] = [];
  const listeners = new Set<(frame: unknown) => void>();
  const closed = new Set<(why: string) => void>();
  const wire: Wire = {
    send: (frame) => sent.push(frame),
    receive(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    onClosed(listener) {
      closed.add(listener);
      return () => closed.delete(listener);
    },
  };
  return {
    wire,
    sent,
    listeners,
    closed,
    hear(frame: unknown) {
      for (const listener of [...listeners]) listener(frame);
    },
    close(why: string) {
      for (const listener of [...closed]) listener(why);
    },
  };
}

const hello = () => ({ type: 'hello', contract: contractVersion() });
const lost = { sweepId: null };

describe('a client', () => {
  it('says hello first, and may be used at once', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    const call = client.call('meters.disconnect', {});
    expect(end.sent).toEqual([hello(), { type: 'request', id: 1, call: 'meters.disconnect', input: {} }]);
    expect(client.connection.state()).toBe('opening');
    end.hear(hello());
    end.hear({ type: 'reply', id: 1, reply: { ok: true, value: {} } });
    expect(await call).toEqual({});
  });

  it('takes nothing for its own that came before the hello was answered', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    const heard: unknown[] = [];
    client.on('meter.changed', (data) => heard.push(data));
    const call = client.call('meters.current', {});
    end.hear({ type: 'reply', id: 1, reply: { ok: false, code: 'failed', where: 'of', help: 'another' } });
    end.hear({ type: 'event', name: 'meter.changed', data: { meter: null, lost: 'another' } });
    end.hear(hello());
    end.hear({ type: 'event', name: 'meter.changed', data: { meter: null, lost: null } });
    end.hear({ type: 'reply', id: 1, reply: { ok: true, value: { meter: null } } });
    expect(await call).toEqual({ meter: null });
    expect(heard).toEqual([{ meter: null, lost: null }]);
  });

  it('fails by name against a host of another contract', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    const call = client.call('meters.disconnect', {});
    end.hear({ type: 'hello', contract: '00000000' });
    await expect(call).rejects.toMatchObject({
      code: 'disconnected',
      help: expect.stringMatching(/contract [0-9a-f]{8}.*speaks 00000000.*reload/),
    });
  });

  it('tells its state at once and at every change, and lets go of the wire when it ends', () => {
    const end = openEnd();
    const client = createClient(end.wire);
    const states: string[] = [];
    const stop = client.connection.onState((state, why) => states.push(`${state} ${why}`.trim()));
    end.hear(hello());
    end.close('the cable was pulled');
    end.close('twice');
    expect(states).toEqual(['opening', 'open', 'closed the cable was pulled']);
    expect([end.listeners.size, end.closed.size]).toEqual([0, 0]);
    stop();
    client.close();
    expect(states.length).toBe(3);
  });

  it('rejects what waits when the services behind the wire stop', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    end.hear(hello());
    const call = client.call('meters.find', {});
    end.hear({ type: 'gone', why: 'the services stopped' });
    await expect(call).rejects.toMatchObject({ code: 'disconnected', help: 'the services stopped' });
    await expect(client.call('meters.find', {})).rejects.toMatchObject({ code: 'disconnected' });
    expect(end.sent.length).toBe(2);
  });

  it('is closed from the start on a wire that says so', async () => {
    const end = openEnd();
    const wire: Wire = {
      ...end.wire,
      onClosed(listener) {
        listener('never opened');
        return () => {};
      },
    };
    const client = createClient(wire);
    expect(client.connection.state()).toBe('closed');
    expect(end.sent).toEqual([]);
  });

  it('rejects a call that the wire will not carry', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    end.hear(hello());
    const broken = createClient({
      ...end.wire,
      send(frame) {
        if ((frame as { type: string }).type === 'request') throw new Error('too big for this wire');
      },
    });
    await expect(broken.call('meters.find', {})).rejects.toMatchObject({
      code: 'failed',
      help: 'too big for this wire',
    });
    client.close();
  });

  it('takes no answer and no event that breaks the contract', async () => {
    const end = openEnd();
    const faults: string[] = [];
    const client = createClient(end.wire, (where) => faults.push(where));
    const heard: unknown[] = [];
    client.on('meter.changed', (data) => heard.push(data));
    end.hear(hello());
    const call = client.call('meters.current', {});
    end.hear({ type: 'reply', id: 1, reply: { ok: true, value: { meter: 'yes' } } });
    await expect(call).rejects.toMatchObject({ code: 'failed', where: 'meters.current' });
    end.hear({ type: 'event', name: 'meter.changed', data: lost });
    end.hear({ type: 'event', name: 'meter.exploded', data: {} });
    end.hear('no frame');
    expect(heard).toEqual([]);
    expect(faults).toEqual(['meters.current', 'meter.changed', 'meter.exploded', 'frame']);
  });

  it('lets one listener fail without the others', () => {
    const end = openEnd();
    const faults: unknown[] = [];
    const client = createClient(end.wire, (_where, fault) => faults.push(fault));
    let heard = 0;
    client.on('meter.changed', () => {
      throw new Error('mine');
    });
    client.on('meter.changed', () => {
      heard += 1;
    });
    end.hear(hello());
    end.hear({ type: 'event', name: 'meter.changed', data: { meter: null, lost: null } });
    expect(heard).toBe(1);
    expect(faults).toEqual([new Error('mine')]);
  });

  it('stops listening to a signal when its call is over', async () => {
    const end = openEnd();
    const client = createClient(end.wire);
    end.hear(hello());
    const listening = new Set<() => void>();
    const signal = {
      aborted: false,
      addEventListener: (_type: 'abort', listener: () => void) => listening.add(listener),
      removeEventListener: (_type: 'abort', listener: () => void) => listening.delete(listener),
    };
    const call = client.call('meters.disconnect', {}, signal);
    expect(listening.size).toBe(1);
    end.hear({ type: 'reply', id: 1, reply: { ok: true, value: {} } });
    await call;
    expect(listening.size).toBe(0);
  });
});
