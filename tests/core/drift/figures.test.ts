import { expect, it } from 'vitest';
import { figureDb, limitsOf } from '../../../core/drift/figures.ts';

const design = { toleranceDb: 1, flatnessDb: 2.5 };

it('gives each figure by its name', () => {
  const figures = { levelDb: -0.4, tiltDb: 0.7, flatnessDb: 1.3 };
  expect(figureDb(figures, 'level')).toBe(-0.4);
  expect(figureDb(figures, 'tilt')).toBe(0.7);
  expect(figureDb(figures, 'flatness')).toBe(1.3);
});

// Contract, section 2: toleranceDb either way, flatnessDb at most; tilt within twice the tolerance, as a standing judges it.
it('has the limits of a standing', () => {
  expect(limitsOf('level', design)).toEqual({ fromDb: -1, toDb: 1 });
  expect(limitsOf('tilt', design)).toEqual({ fromDb: -2, toDb: 2 });
  expect(limitsOf('flatness', design)).toEqual({ fromDb: null, toDb: 2.5 });
});
