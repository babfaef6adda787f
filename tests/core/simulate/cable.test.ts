import { expect, it } from 'vitest';
import { cableChangeDb, cableLossDb } from '../../../core/simulate/cable.ts';

// cabl.com, "CATV Formulas": 20 dB of cable at 450 MHz; the root law gives a ratio of 0.3464 at 54 MHz, 6.93 dB.
it('loses as the root of frequency', () => {
  expect(cableLossDb({ lossDb: 20, topMhz: 450 }, 450)).toBe(20);
  expect(cableLossDb({ lossDb: 20, topMhz: 450 }, 54)).toBeCloseTo(6.928, 3);
});

// "Coaxial Cable Attenuation Changes versus Temperature": 68 to 100 F (20 to 37.78 C), 11.0 dB becomes 11.4 dB
// (0.0011 per degree F is 0.00198 per degree C).
it('changes with the weather as the published example', () => {
  const change = cableChangeDb({ lossDb: 11, perDegreeC: 0.00198 }, 37.78, 20);
  expect(11 + change).toBeCloseTo(11.39, 2);
  expect(cableChangeDb({ lossDb: 11, perDegreeC: 0.00198 }, -20, 20)).toBeLessThan(0);
});
