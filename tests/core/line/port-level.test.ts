import { expect, it } from 'vitest';
import { portLevelDbmv, rowsAtPort } from '../../../core/line/port-level.ts';

it('gives the test point its loss back', () => expect(portLevelDbmv(16.5, 20)).toBe(36.5));

it('keeps order, kind and readings without a level', () => {
  const rows = rowsAtPort(
    [
      { frequencyMhz: 57, meterDbmv: 16, kind: 'qam' },
      { frequencyMhz: 63, meterDbmv: null, kind: null },
    ],
    20,
  );
  expect(rows).toEqual([
    { frequencyMhz: 57, levelDbmv: 36, kind: 'qam' },
    { frequencyMhz: 63, levelDbmv: null },
  ]);
});
