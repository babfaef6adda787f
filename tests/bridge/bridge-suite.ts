import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { type Client, createClient, type Wire } from '../../core/bridge/client.ts';
import { ClientFault } from '../../core/bridge/client-fault.ts';
import type { Emit, Handlers } from '../../core/bridge/contract.ts';
import { contractVersion } from '../../core/bridge/fingerprint.ts';
import { Refused } from '../../core/bridge/refused.ts';
import { refuse } from '../../core/result.ts';
import { plainHandlers } from '../support/plain-handlers.ts';
import { soon } from '../support/soon.ts';

/** A transport under test: a host with these handlers, and clients that come to it and go. */
export type Transport = Readonly<{
  emit: Emit;
  faults: readonly unknown[];
  /** One more client's wire; `goAway` is its end without a word, as when a page is closed. */
  join(): Promise<Readonly<{ wire: Wire; goAway(): void }>>;
  close(): Promise<void>;
}>;

const sweepId = '7d4a3c52-6f0e-4c1b-9a55-0d3f7b1c2e90';
const reading = (index: number) => ({
  sweepId,
  index,
  plannedCount: 200,
  reading: {
    frequencyMhz: 55.25 + index,
    meterDbmv: 12.5,
    kind: null,
    takenAt: '2030-05-04T10:00:00.000Z',
  },
});

const faultOf = async (call: Promise<unknown>): Promise<ClientFault> => {
  const fault: unknown = await call.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(fault instanceof ClientFault)) throw new Error(`not a client's fault: ${String(fault)}`);
  return fault;
};

/** One behaviour, whatever carries the frames. */
export function bridgeSuite(name: string, open: (handlers: Handlers) => Promise<Transport>): void {
  describe(`the bridge over ${name}`, () => {
    let begun = 0;
    let aborted = 0;
    let finishLate = () => {};
    let transport: Transport;
    let link: Awaited<ReturnType<Transport['join']>>;
    let client: Client;

    const handlers = plainHandlers({
      'meters.disconnect': async () => ({}),
      'stations.import': async ({ text }) => ({ stationId: 'QM-4-1', revision: text.length }),
      'stations.export': async ({ stationId }) => {
        throw new Refused(refuse('no-such-station', stationId, 'choose one from the list'));
      },
      'sweeps.stop': async () => {
        throw new TypeError('the archive slipped');
      },
      // An answer that breaks the contract: a bridge that doesn't look would hand it to the page.
      'stations.list': async () => ({ stations: [{ wrong: true }] }) as never,
      // Ends only when it is told to, or is let finish as one who has not heard.
      'meters.find': (_input, signal) =>
        new Promise((resolve, reject) => {
          begun += 1;
          finishLate = () => resolve({ ports: [], problem: null });
          signal.addEventListener('abort', () => {
            aborted += 1;
            reject(new Error('stopped'));
          });
        }),
      'meters.current': (_input, signal) =>
        new Promise((resolve) => {
          begun += 1;
          finishLate = () => resolve({ meter: null });
          signal.addEventListener('abort', () => {
            aborted += 1;
          });
        }),
    });

    beforeEach(async () => {
      begun = 0;
      aborted = 0;
      transport = await open(handlers);
      link = await transport.join();
      client = createClient(link.wire);
    });
    afterEach(() => transport.close());

    it('answers a call', async () => {
      expect(await client.call('meters.disconnect', {})).toEqual({});
      expect(client.connection.state()).toBe('open');
      expect(transport.faults).toEqual([]);
    });

    it('answers many calls at once, each with its own answer', async () => {
      const texts = Array.from({ length: 50 }, (_, i) => 'x'.repeat(i + 1));
      const answers = await Promise.all(
        texts.map((text) => client.call('stations.import', { fileName: 'a.json', text })),
      );
      expect(answers.map((answer) => answer.revision)).toEqual(texts.map((text) => text.length));
    });

    it.each(['stations.burn', 'constructor', '__proto__', 'toString'])('knows no call %s', async (name) => {
      const fault = await faultOf(client.call(name as 'meters.find', {}));
      expect(fault.code).toBe('unknown-call');
      expect(fault.where).toBe(name);
    });

    it('names the key that a call does not have', async () => {
      const input = { stationId: 'QM-4-1', colour: 'red' };
      const fault = await faultOf(client.call('stations.open', input));
      expect(fault.code).toBe('bad-input');
      expect(fault.help).toContain('colour');
    });

    it('keeps what, where and help of a refusal, and logs no fault', async () => {
      const fault = await faultOf(client.call('stations.export', { stationId: 'QM-9' }));
      expect(fault).toMatchObject({
        code: 'refused',
        refusalCode: 'no-such-station',
        where: 'QM-9',
        help: 'choose one from the list',
      });
      expect(transport.faults).toEqual([]);
    });

    it('tells a fault by its message only, and logs it at the host', async () => {
      const fault = await faultOf(client.call('sweeps.stop', { sweepId }));
      expect(fault).toMatchObject({ code: 'failed', where: 'sweeps.stop', help: 'the archive slipped' });
      expect(JSON.stringify(fault)).not.toContain('bridge-suite');
      expect(transport.faults).toEqual([expect.objectContaining({ message: 'the archive slipped' })]);
    });

    it('lets no answer pass that breaks the contract', async () => {
      const fault = await faultOf(client.call('stations.list', {}));
      expect(fault.code).toBe('failed');
      expect(fault.help).toContain('wrong');
      expect(transport.faults.length).toBe(1);
    });

    it('cancels a running call at the host', async () => {
      const stop = new AbortController();
      const call = faultOf(client.call('meters.find', {}, stop.signal));
      await soon(() => begun === 1);
      stop.abort();
      expect((await call).code).toBe('cancelled');
      await soon(() => aborted === 1);
      expect(transport.faults).toEqual([]);
    });

    it('rejects at once a call whose signal has already gone', async () => {
      expect((await faultOf(client.call('meters.find', {}, AbortSignal.abort()))).code).toBe('cancelled');
      await client.call('meters.disconnect', {});
      expect(begun).toBe(0);
    });

    it('takes a cancel that comes too late, and an answer that nobody waits for', async () => {
      const stop = new AbortController();
      await client.call('meters.disconnect', {}, stop.signal);
      stop.abort();
      link.wire.send({ type: 'cancel', id: 1 });
      link.wire.send({ type: 'cancel', id: 999 });
      const deaf = new AbortController();
      const call = faultOf(client.call('meters.current', {}, deaf.signal));
      await soon(() => begun === 1);
      deaf.abort();
      expect((await call).code).toBe('cancelled');
      await soon(() => aborted === 1);
      finishLate();
      expect(await client.call('meters.disconnect', {})).toEqual({});
      expect(transport.faults).toEqual([]);
    });

    it('keeps the order of events, and sends them to every client', async () => {
      const second = await transport.join();
      const other = createClient(second.wire);
      const seen: number[] = [];
      const seenByOther: number[] = [];
      client.on('sweep.reading', ({ index }) => seen.push(index));
      const stopListening = other.on('sweep.reading', ({ index }) => seenByOther.push(index));
      await Promise.all([client.call('meters.disconnect', {}), other.call('meters.disconnect', {})]);
      for (let index = 0; index < 100; index += 1) transport.emit('sweep.reading', reading(index));
      await soon(() => seen.length === 100 && seenByOther.length === 100);
      stopListening();
      for (let index = 100; index < 200; index += 1) transport.emit('sweep.reading', reading(index));
      await soon(() => seen.length === 200);
      expect(seen).toEqual(Array.from({ length: 200 }, (_, i) => i));
      expect(seenByOther.length).toBe(100);
    });

    it('sends no event that breaks the contract', async () => {
      const seen: unknown[] = [];
      client.on('sweep.reading', (data) => seen.push(data));
      await client.call('meters.disconnect', {});
      transport.emit('sweep.reading', { ...reading(0), index: -1 });
      transport.emit('sweep.reading', reading(1));
      await soon(() => seen.length === 1);
      expect(seen).toEqual([reading(1)]);
      expect(transport.faults.length).toBe(1);
    });

    it('aborts the running calls of a client that goes away', async () => {
      client.call('meters.find', {}).catch(() => {});
      client.call('meters.current', {}).catch(() => {});
      await soon(() => begun === 2);
      link.goAway();
      await soon(() => aborted === 2);
    });

    it('drops what ran before when the page says hello again, and answers nothing of it', async () => {
      client.call('meters.current', {}).catch(() => {});
      await soon(() => begun === 1);
      const finishOld = finishLate;
      client.close();
      const again = createClient(link.wire);
      const find = again.call('meters.find', {});
      await soon(() => aborted === 1 && begun === 2);
      finishOld();
      await again.call('meters.disconnect', {});
      finishLate();
      expect(await find).toEqual({ ports: [], problem: null });
    });

    it.each([
      ['nothing', null],
      ['a number', 7],
      ['a text', 'hello'],
      ['a list', [{ type: 'request' }]],
      ['no type', { id: 1 }],
      ['another type', { type: 'shutdown' }],
      ['a request without an id', { type: 'request', call: 'meters.disconnect', input: {} }],
      ['an id that is no number', { type: 'cancel', id: 'all' }],
      ['a key too many', { type: 'cancel', id: 1, and: 'more' }],
    ])('goes on after garbage: %s', async (_what, garbage) => {
      await client.call('meters.disconnect', {});
      link.wire.send(garbage);
      expect(await client.call('meters.disconnect', {})).toEqual({});
      expect(transport.faults.length).toBe(1);
    });

    it('answers a broken request that has an id, so that nobody waits for ever', async () => {
      await client.call('meters.disconnect', {});
      const heard: unknown[] = [];
      link.wire.receive((frame) => heard.push(frame));
      link.wire.send({ type: 'request', id: 77, call: 5 });
      await soon(() => heard.length === 1);
      expect(heard[0]).toMatchObject({ type: 'reply', id: 77, reply: { ok: false, code: 'bad-input' } });
    });

    it('refuses a text that is too long, and goes on', async () => {
      const text = 'x'.repeat(20_000_001);
      const fault = await faultOf(client.call('stations.import', { fileName: 'long.json', text }));
      expect(fault.code).toBe('bad-input');
      expect(fault.help).toContain('20000000');
      expect(fault.message.length).toBeLessThan(500);
      expect(await client.call('meters.disconnect', {})).toEqual({});
    });

    it('refuses a page of another contract by name', async () => {
      const old = await transport.join();
      const heard: unknown[] = [];
      old.wire.receive((frame) => heard.push(frame));
      old.wire.send({ type: 'request', id: 1, call: 'meters.disconnect', input: {} });
      old.wire.send({ type: 'hello', contract: '00000000' });
      old.wire.send({ type: 'request', id: 2, call: 'meters.disconnect', input: {} });
      await soon(() => heard.length === 3);
      expect(heard).toEqual([
        expect.objectContaining({ id: 1, reply: expect.objectContaining({ code: 'failed' }) }),
        { type: 'hello', contract: contractVersion() },
        expect.objectContaining({
          id: 2,
          reply: expect.objectContaining({ help: expect.stringContaining('another version') }),
        }),
      ]);
    });
  });
}
