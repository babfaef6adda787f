import { expect, it } from 'vitest';
import { markShapes } from '../../../core/report/marks.ts';

it('gives each verdict a shape of its own, not only a colour', () => {
  const forms = (['pass', 'fail', 'undecided'] as const).map((verdict) =>
    markShapes({ verdict, pointing: 'up' })
      .map(({ shape }) => shape)
      .join(' '),
  );
  expect(new Set(forms).size).toBe(3);
});

it('points to where a value lies off', () => {
  const [up] = markShapes({ verdict: 'fail', pointing: 'up' });
  const [down] = markShapes({ verdict: 'fail', pointing: 'down' });
  const tip = (shape: typeof up) => (shape?.shape === 'area' ? shape.points.at(-1)?.[1] : undefined);
  expect(tip(up)).toBeLessThan(10);
  expect(tip(down)).toBeGreaterThan(10);
});
