import { expect, it } from 'vitest';
import { hzFromMhz, mhzFromHz } from '../../../core/channels/hertz.ts';

// Definition: 1 MHz = 1,000,000 Hz. 61.25 and 331.275 MHz are carriers of 47 CFR 76.612 and the public tables.
it('goes both ways without a remainder', () => {
  expect(mhzFromHz(61_250_000)).toBe(61.25);
  expect(mhzFromHz(331_275_000)).toBe(331.275);
  expect(hzFromMhz(331.275)).toBe(331_275_000);
  expect(hzFromMhz(54.0027)).toBe(54_002_700);
});
