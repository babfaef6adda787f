import { expect, it } from 'vitest';
import { sheetDoubtDb } from '../../../core/noise/sheet-doubt.ts';

// Common practice, no published source: typical noise figures to 1 dB, distortions and what is estimated from them to 2.
it('leaves a decibel to noise and two to distortion', () => {
  expect((['cnr', 'ctb', 'cso', 'xmod', 'mer'] as const).map(sheetDoubtDb)).toEqual([1, 2, 2, 2, 2]);
});
