import { expect, it } from 'vitest';
import { segmentsOf } from '../../../core/drift/segments.ts';
import { sweep } from './sweeps.ts';

const ids = (points: Parameters<typeof segmentsOf>[0]) =>
  segmentsOf(points).map((one) => [one.begins.cause, ...one.points.map(({ sweepId }) => sweepId)]);

it('keeps sweeps together between which nothing is known to have changed, however far they lie apart', () => {
  expect(ids([sweep(1), sweep(2, { levelDb: -3 }), sweep(3, { levelDb: 2 })])).toEqual([
    ['first', 'sweep-1', 'sweep-2', 'sweep-3'],
  ]);
});
it('begins anew where a part was exchanged, and names it', () => {
  const after = sweep(2, { pluggedIn: { 'input pad': 3, 'input equalizer': 2 } });
  const [, second] = segmentsOf([sweep(1), after]);
  expect(second?.begins).toEqual({
    cause: 'parts',
    changes: [
      { position: 'input equalizer', fromDb: 0, toDb: 2 },
      { position: 'input pad', fromDb: 4, toDb: 3 },
    ],
  });
});
it('begins anew with a new design', () => {
  expect(ids([sweep(1), sweep(2, { revision: 2 })])).toEqual([
    ['first', 'sweep-1'],
    ['design', 'sweep-2'],
  ]);
});
it('begins anew where a visit left the station elsewhere than it found it, with no part exchanged', () => {
  const found = sweep(2, { visitId: 'v', levelDb: -0.9 });
  const left = sweep(3, { visitId: 'v', purpose: 'as-left', levelDb: 0.1 });
  expect(ids([sweep(1), found, left, sweep(4)])).toEqual([
    ['first', 'sweep-1', 'sweep-2'],
    ['adjusted', 'sweep-3', 'sweep-4'],
  ]);
});
it('counts one sweep a visit, the last, where the visit changed nothing', () => {
  const found = sweep(2, { visitId: 'v', levelDb: 0.1 });
  const left = sweep(3, { visitId: 'v', purpose: 'as-left', levelDb: 0.2 });
  expect(ids([sweep(1), found, left])).toEqual([['first', 'sweep-1', 'sweep-3']]);
});
it('looks at tilt and flatness as well', () => {
  const found = sweep(1, { visitId: 'v', flatnessDb: 3 });
  const left = sweep(2, { visitId: 'v', purpose: 'as-left', flatnessDb: 1 });
  expect(ids([found, left])).toEqual([
    ['first', 'sweep-1'],
    ['adjusted', 'sweep-2'],
  ]);
});
it('has nothing to say of no sweep', () => expect(segmentsOf([])).toEqual([]));
