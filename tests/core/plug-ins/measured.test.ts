import { expect, it } from 'vitest';
import type { Position } from '../../../core/files/station.ts';
import { measuredLossDb } from '../../../core/plug-ins/measured.ts';

const bare: Position = { name: 'pad', kind: 'pad', installed: 0, values: [0, 8] };
const curved: Position = {
  ...bare,
  curves: {
    '0': [[54, 0.3]],
    '8.0': [
      [54, 8.5],
      [454, 8.1],
      [854, 8.9],
    ],
    '3': [
      [800, 5],
      [100, 3],
    ],
  },
};

it('is null where nothing was measured', () => {
  expect(measuredLossDb(bare, 8, 54)).toBeNull();
  expect(measuredLossDb(curved, 6, 54)).toBeNull();
});
it('is straight between points and held flat beyond the ends', () => {
  expect(measuredLossDb(curved, 8, 254)).toBeCloseTo(8.3, 12);
  expect(measuredLossDb(curved, 8, 654)).toBeCloseTo(8.5, 12);
  expect(measuredLossDb(curved, 8, 5)).toBe(8.5);
  expect(measuredLossDb(curved, 8, 1218)).toBe(8.9);
});
it('holds for value 0 too, and for points in falling order', () => {
  expect(measuredLossDb(curved, 0, 400)).toBe(0.3);
  expect(measuredLossDb(curved, 3, 450)).toBeCloseTo(4, 12);
});
