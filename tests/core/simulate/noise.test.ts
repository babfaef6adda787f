import { expect, it } from 'vitest';
import { normalNoise } from '../../../core/simulate/noise.ts';

const draws = Array.from({ length: 20_000 }, (_, i) => normalNoise(403, 57 + 6 * (i % 136), i));

it('gives the same draw for the same three numbers and another for any other', () => {
  expect(normalNoise(403, 57, 0)).toBe(normalNoise(403, 57, 0));
  const near = [
    normalNoise(403, 57, 0),
    normalNoise(404, 57, 0),
    normalNoise(403, 63, 0),
    normalNoise(403, 57, 1),
  ];
  expect(new Set(near).size).toBe(4);
});

// Moments of the standard normal: mean 0, variance 1, third moment 0, fourth 3; 68.27 % within one deviation.
// The bounds are five standard errors of 20,000 draws.
it('is standard normal', () => {
  const moment = (power: number) => draws.reduce((sum, x) => sum + x ** power, 0) / draws.length;
  expect(Math.abs(moment(1))).toBeLessThan(5 / Math.sqrt(20_000));
  expect(Math.abs(moment(2) - 1)).toBeLessThan(5 * Math.sqrt(2 / 20_000));
  expect(Math.abs(moment(3))).toBeLessThan(5 * Math.sqrt(15 / 20_000));
  expect(Math.abs(moment(4) - 3)).toBeLessThan(5 * Math.sqrt(96 / 20_000));
  const within = draws.filter((x) => Math.abs(x) < 1).length / draws.length;
  expect(Math.abs(within - 0.6827)).toBeLessThan(0.017);
  expect(Math.max(...draws.map(Math.abs))).toBeLessThan(7);
});

it('does not repeat from one draw to the next', () => {
  const lag = draws.slice(1).reduce((sum, x, i) => sum + x * (draws[i] ?? 0), 0) / draws.length;
  expect(Math.abs(lag)).toBeLessThan(5 / Math.sqrt(20_000));
});
