import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dispatch } from '../../../core/bridge/dispatch.ts';
import { Reply } from '../../../core/bridge/frames.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { refuse } from '../../../core/result.ts';
import { plainHandlers } from '../../support/plain-handlers.ts';

const quiet = new AbortController().signal;

describe('dispatch', () => {
  it('gives a handler parsed input, and its signal', async () => {
    const seen: unknown[] = [];
    const handlers = plainHandlers({
      'stations.import': async (input, signal) => {
        seen.push(input, signal);
        return { stationId: 'a', revision: 1 };
      },
    });
    const raw = { fileName: '  spaced.json ', text: '{}' };
    const reply = await dispatch(handlers, 'stations.import', raw, quiet, () => {});
    expect(reply).toEqual({ ok: true, value: { stationId: 'a', revision: 1 } });
    expect(seen).toEqual([{ fileName: 'spaced.json', text: '{}' }, quiet]);
  });

  it('calls nothing with input that is not the call’s', async () => {
    let called = false;
    const handlers = plainHandlers({
      'meters.disconnect': async () => {
        called = true;
        return {};
      },
    });
    const reply = await dispatch(handlers, 'meters.disconnect', { force: 1 }, quiet, () => {});
    expect(reply).toMatchObject({ ok: false, code: 'bad-input', where: 'meters.disconnect' });
    expect(called).toBe(false);
  });

  it.each([
    [new Error('plain words'), 'plain words'],
    ['a text', 'a text'],
    [undefined, 'undefined'],
  ])('turns what is thrown into words: %s', async (thrown, help) => {
    const faults: unknown[] = [];
    const handlers = plainHandlers({
      'meters.disconnect': () => Promise.reject(thrown),
    });
    const reply = await dispatch(handlers, 'meters.disconnect', {}, quiet, (_where, fault) =>
      faults.push(fault),
    );
    expect(reply).toEqual({ ok: false, code: 'failed', where: 'meters.disconnect', help });
    expect(faults).toEqual([thrown]);
  });

  it('tells a refusal from a fault also when the call was cancelled', async () => {
    const handlers = plainHandlers({
      'meters.disconnect': () => Promise.reject(new Refused(refuse('busy', 'meter', 'wait'))),
      'meters.find': () => Promise.reject(new Error('stopped')),
    });
    const gone = AbortSignal.abort();
    const faults: unknown[] = [];
    const onFault = (_where: string, fault: unknown) => faults.push(fault);
    expect(await dispatch(handlers, 'meters.disconnect', {}, gone, onFault)).toEqual({
      ok: false,
      code: 'refused',
      refusal: { code: 'busy', where: 'meter', help: 'wait' },
    });
    expect(await dispatch(handlers, 'meters.find', {}, gone, onFault)).toMatchObject({ code: 'cancelled' });
    expect(faults).toEqual([]);
  });

  it('gives the answer of a handler that finished although it was cancelled', async () => {
    const handlers = plainHandlers({ 'meters.disconnect': async () => ({}) });
    expect(await dispatch(handlers, 'meters.disconnect', {}, AbortSignal.abort(), () => {})).toEqual({
      ok: true,
      value: {},
    });
  });

  it('answers anything with a proper reply, and never throws', async () => {
    const handlers = plainHandlers({});
    const names = fc.oneof(fc.string(), fc.constantFrom('host.describe', 'sweeps.start', 'constructor'));
    await fc.assert(
      fc.asyncProperty(names, fc.anything(), async (name, raw) => {
        const reply = await dispatch(handlers, name, raw, quiet, () => {});
        expect(Reply.parse(reply)).toMatchObject({ ok: false });
      }),
    );
  });
});
