import { expect, it } from 'vitest';
import { createGate } from '../../../electron/backend/services/gate.ts';

it('lets through while it is open, holds while it is closed, and gives way to a stop', async () => {
  const gate = createGate();
  const never = new AbortController().signal;
  await gate.open(never);
  gate.set(true);
  let through = false;
  const waiting = gate.open(never).then(() => {
    through = true;
  });
  await new Promise(setImmediate);
  expect(through).toBe(false);
  gate.set(true);
  gate.set(false);
  await waiting;
  gate.set(true);
  const stop = new AbortController();
  const stopped = gate.open(stop.signal);
  stop.abort();
  await stopped;
  await gate.open(AbortSignal.abort());
});
