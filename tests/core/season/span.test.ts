import { expect, it } from 'vitest';
import { spanDemandDb, spanLossDb } from '../../../core/season/span.ts';

// "Coaxial Cable Attenuation Changes versus Temperature" (tech tip, publisher not shown): 200 ft of 0.055 dB/ft at 750 MHz
// and 68 F lose 11.0 dB; at 100 F the factor is 1.0352, 11.4 dB. Its 0.0011 a degree F is 0.00198 a degree C.
it('agrees with the published worked example', () => {
  const span = { lossDb: 11, topMhz: 750, perDegreeC: 0.0011 * 1.8 };
  const hotC = (100 - 32) / 1.8;
  expect(spanLossDb(span, 750, 20)).toBeCloseTo(11, 12);
  expect(spanLossDb(span, 750, hotC)).toBeCloseTo(11 * 1.0352, 10);
  expect(spanDemandDb(span, 750, hotC, 20)).toBeCloseTo(11 * 0.0352, 10);
});

// cabl.com, "CATV Formulas": L2 = L1 sqrt(f2/f1); a quarter of the frequency is half of the loss.
it('goes as the square root of frequency', () => {
  const span = { lossDb: 22, topMhz: 1000, perDegreeC: 0.002 };
  expect(spanLossDb(span, 250, 20)).toBeCloseTo(11, 12);
  expect(spanDemandDb(span, 250, -30, 20)).toBeCloseTo(-1.1, 12);
});
