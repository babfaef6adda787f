import { describe, expect, it } from 'vitest';
import { answerableId, ClientFrame, HostFrame } from '../../../core/bridge/frames.ts';

describe('frames', () => {
  it.each([
    { type: 'hello', contract: 'abc' },
    { type: 'request', id: 1, call: 'host.describe', input: {} },
    { type: 'cancel', id: 2 },
  ])('of a client: $type', (frame) => {
    expect(ClientFrame.parse(frame)).toEqual(frame);
    expect(ClientFrame.safeParse({ ...frame, extra: true }).success).toBe(false);
  });

  it.each([
    { type: 'hello', contract: 'abc' },
    { type: 'reply', id: 1, reply: { ok: true, value: null } },
    { type: 'reply', id: 1, reply: { ok: false, code: 'failed', where: 'a', help: 'b' } },
    {
      type: 'reply',
      id: 1,
      reply: { ok: false, code: 'refused', refusal: { code: 'a', where: 'b', help: 'c' } },
    },
    { type: 'event', name: 'meter.changed', data: {} },
    { type: 'gone', why: 'stopped' },
  ])('of a host: $type', (frame) => {
    expect(HostFrame.parse(frame)).toEqual(frame);
    expect(HostFrame.safeParse({ ...frame, extra: true }).success).toBe(false);
  });

  it('of a host carry a code that a client knows', () => {
    const reply = { ok: false, code: 'odd', where: 'a', help: 'b' };
    expect(HostFrame.safeParse({ type: 'reply', id: 1, reply }).success).toBe(false);
  });
});

describe('answerableId', () => {
  it.each([
    [{ type: 'request', id: 5, call: 7 }, 5],
    [{ type: 'request', id: 5, more: 1 }, 5],
    [{ type: 'request', id: 0 }, null],
    [{ type: 'request', id: '5' }, null],
    [{ type: 'cancel', id: 5 }, null],
    ['request', null],
    [null, null],
  ])('of %j is %j', (raw, id) => {
    expect(answerableId(raw)).toBe(id);
  });
});
