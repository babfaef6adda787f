import { expect, it } from 'vitest';
import { createBroadcast } from '../../../core/bridge/broadcast.ts';

const changed = { meter: null, lost: null };

it('reaches everybody who listens, and nobody who left', () => {
  const broadcast = createBroadcast(() => {});
  const heard: string[] = [];
  const leave = broadcast.join(() => heard.push('first'));
  broadcast.join(() => heard.push('second'));
  broadcast.emit('meter.changed', changed);
  expect(broadcast.count()).toBe(2);
  leave();
  leave();
  expect(broadcast.count()).toBe(1);
  broadcast.emit('meter.changed', changed);
  expect(heard).toEqual(['first', 'second', 'second']);
});

it('goes on when one client can not be reached', () => {
  const faults: string[] = [];
  const broadcast = createBroadcast((where) => faults.push(where));
  const heard: unknown[] = [];
  broadcast.join(() => {
    throw new Error('gone');
  });
  broadcast.join((frame) => heard.push(frame));
  broadcast.emit('meter.changed', changed);
  expect(heard).toEqual([{ type: 'event', name: 'meter.changed', data: changed }]);
  expect(faults).toEqual(['meter.changed']);
});

it('never throws into whoever emits, and sends no broken event', () => {
  const faults: string[] = [];
  const broadcast = createBroadcast((where) => faults.push(where));
  const heard: unknown[] = [];
  broadcast.join((frame) => heard.push(frame));
  expect(() => broadcast.emit('meter.changed', { wrong: 1 } as never)).not.toThrow();
  expect(heard).toEqual([]);
  expect(faults).toEqual(['meter.changed']);
});
