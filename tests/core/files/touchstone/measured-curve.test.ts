import { expect, it } from 'vitest';
import { Station } from '../../../../core/files/station.ts';
import { measuredCurve, withCurve, withoutCurve } from '../../../../core/files/touchstone/measured-curve.ts';
import { measuredLossDb } from '../../../../core/plug-ins/measured.ts';

const response = (change = {}) => ({
  quantity: 'S21' as const,
  points: [
    { frequencyMhz: 54, gainDb: -7.1 },
    { frequencyMhz: 870, gainDb: -1 },
  ],
  referenceOhm: 75,
  notes: [],
  ...change,
});
const station = Station.parse({
  format: 'tiltwright-station/1',
  id: 'x',
  name: 'Ropewalk',
  ports: [{ name: 'out', direction: 'forward' }],
  positions: [
    {
      name: 'input equalizer',
      kind: 'equalizer',
      topMhz: 870,
      installed: 8,
      values: [0, 8],
      curves: { '8.0': [[54, 9]] },
    },
  ],
});

it('is the loss of the plug-in, and takes the place of the curve of that value', () => {
  const curve = measuredCurve(response(), 'x.s2p');
  if (!curve.ok) throw new Error(curve.help);
  expect(curve.value).toEqual([
    [54, 7.1],
    [870, 1],
  ]);
  const better = withCurve(station, 'input equalizer', 8, curve.value);
  if (!better.ok) throw new Error(better.help);
  const [position] = better.value.positions;
  if (position === undefined) throw new Error('no position');
  expect(position.curves).toEqual({
    8: [
      [54, 7.1],
      [870, 1],
    ],
  });
  // Half-way on the straight line, by hand.
  expect(measuredLossDb(position, 8, 462)).toBeCloseTo(4.05, 9);
});

it.each([
  [{ quantity: 'S11' as const }, 'not-s21'],
  [{ referenceOhm: 50 }, 'not-75-ohm'],
  [{ points: [{ frequencyMhz: 54, gainDb: 12 }] }, 'gain'],
  [{ points: [{ frequencyMhz: 0.001, gainDb: -1 }] }, 'span'],
])('refuses %j', (change, code) => {
  expect(measuredCurve(response(change), 'x.s2p')).toMatchObject({ ok: false, code });
});

it('refuses a position or a value that the station does not have', () => {
  expect(withCurve(station, 'pad', 8, [[54, 1]])).toMatchObject({ ok: false, code: 'no-such-position' });
  expect(withCurve(station, 'input equalizer', 5, [[54, 1]])).toMatchObject({ ok: false, code: 'bad-value' });
});

it('gives a value the loss of its label back, and leaves the other values theirs', () => {
  const both = withCurve(station, 'input equalizer', 0, [[54, 0.2]]);
  if (!both.ok) throw new Error(both.help);
  const one = withoutCurve(both.value, 'input equalizer', 8);
  expect(one.positions[0]?.curves).toEqual({ '0': [[54, 0.2]] });
  expect(withoutCurve(one, 'input equalizer', 0).positions[0]).not.toHaveProperty('curves');
  expect(withoutCurve(one, 'no such', 0)).toEqual(one);
});
