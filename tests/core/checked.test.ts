import fc from 'fast-check';
import { expect, it } from 'vitest';
import { FREQUENCY, LOSS, unfit, unfitCount } from '../../core/checked.ts';
import { anyNumber } from '../support/any-number.ts';

// Common practice, no published source: the ends are wide of everything on a coaxial network.
it('names the first number that is none, or lies outside, with its unit', () => {
  expect(
    unfit([
      ['loss', 3, LOSS],
      ['frequency', Number.NaN, FREQUENCY],
    ]),
  ).toMatchObject({
    ok: false,
    code: 'not-a-number',
    where: 'frequency',
    help: expect.stringContaining('MHz'),
  });
  expect(unfit([['loss', -1, LOSS]])).toMatchObject({ code: 'out-of-range', where: 'loss -1 dB' });
});

it('counts both ends as allowed, but for an open one', () => {
  expect(unfit([['loss', 0, LOSS]])).toBeNull();
  expect(unfit([['loss', 1000, LOSS]])).toBeNull();
  expect(unfit([['loss', 1000.1, LOSS]])).toMatchObject({ code: 'out-of-range' });
  expect(unfit([['frequency', 0, FREQUENCY]])).toMatchObject({ code: 'out-of-range' });
});

it('lets nothing through that is not finite', () => {
  fc.assert(
    fc.property(anyNumber, (value) => unfit([['loss', value, LOSS]]) !== null || Number.isFinite(value)),
  );
});

it('counts in whole numbers from 1 on', () => {
  expect(unfitCount('stations', 1)).toBeNull();
  for (const count of [0, -1, 1.5, Number.NaN, Number.POSITIVE_INFINITY])
    expect(unfitCount('stations', count)).toMatchObject({ ok: false });
});
