import { expect, it } from 'vitest';
import { valueOn } from '../../../core/simulate/level-line.ts';

// By hand: 100 and 400 MHz have roots 10 and 20, so 225 MHz (15) is half-way in the root and 125/300 in frequency.
it('is straight in frequency or in its root', () => {
  const ends = { lowMhz: 100, low: 30, highMhz: 400, high: 42 };
  expect(valueOn({ ...ends, shape: 'cable' }, 225)).toBeCloseTo(36, 12);
  expect(valueOn({ ...ends, shape: 'linear' }, 225)).toBeCloseTo(35, 12);
  expect(valueOn({ ...ends, shape: 'linear' }, 700)).toBeCloseTo(54, 12);
});
