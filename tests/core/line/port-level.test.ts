import { expect, it } from 'vitest';
import { rowsAtPort } from '../../../core/line/port-level.ts';

it('gives the test point its loss back', () =>
  expect(rowsAtPort([{ frequencyMhz: 57, meterDbmv: 16.5, kind: null }], 20)[0]?.levelDbmv).toBe(36.5));

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

it('passes on what a reading is modulated with, and nothing where nothing says it', () => {
  const reading = { frequencyMhz: 57, meterDbmv: 10, kind: 'qam' as const };
  expect(rowsAtPort([{ ...reading, modulation: '64-QAM' }], 20)[0]).toMatchObject({ modulation: '64-QAM' });
  expect(rowsAtPort([reading], 20)[0]).not.toHaveProperty('modulation');
});
