import { expect, it } from 'vitest';
import { basisWords } from '../../../core/gain-control/basis.ts';

it('says of each number what it rests on', () => {
  expect(basisWords('practice')).toBe('common practice, no published source');
  expect(basisWords('interpolated')).toMatch(/^interpolated/);
  expect(basisWords('extrapolated')).toMatch(/^extrapolated/);
});
