import { expect, it } from 'vitest';
import { historyPicture } from '../../../core/report/history-picture.ts';

const points = [
  { atMs: 0, day: '2024-01-01', foundDb: -1.5, leftDb: 0.2 },
  { atMs: 1e10, day: '2024-04-26', foundDb: 0.4, leftDb: null },
];

it('draws as found hollow and as left filled, joined in the order of time', () => {
  const { shapes } = historyPicture('worst channel, dB', points, 1);
  const dots = shapes.flatMap((shape) => (shape.shape === 'dot' ? [shape.hollow] : []));
  expect(dots).toEqual([true, false, true]);
  const path = shapes.find((shape) => shape.shape === 'line' && shape.dashPt !== undefined);
  expect(path?.shape === 'line' ? path.points.length : 0).toBe(3);
});

it('has a place for one visit, and for none', () => {
  const [one] = points;
  const drawn = [historyPicture('x', one === undefined ? [] : [one], 1), historyPicture('x', [], 1)];
  for (const { shapes } of drawn)
    for (const shape of shapes)
      if (shape.shape === 'dot') expect(Number.isFinite(shape.xPt + shape.yPt)).toBe(true);
});
