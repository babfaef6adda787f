import fc from 'fast-check';
import { expect, it } from 'vitest';
import { CABLES } from '../../../core/coax/cables.ts';
import { cableNamed } from '../../../core/coax/loss.ts';
import { lengthForLossM, lossRatio, spanLossDb, spanTiltDb, tiltOfLossDb } from '../../../core/coax/span.ts';
import example from '../../data/published/cable-tilt-example.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const cable = (name: string) => {
  const found = cableNamed(name);
  if (!found.ok) throw new Error(found.help);
  return found.value;
};
const value = <T>(told: { ok: true; value: T } | { ok: false; help: string }): T => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};

// cabl.com "CATV Formulas": 20 dB of .750 from 54 to 450 MHz, ratio 0.333, tilt 13.4 dB. Pure sqrt f gives 13.07 dB.
it('gives the published tilt of 20 dB of .750 cable', () => {
  const { cableLossDb, lowMhz, highMhz, lossRatio: ratio, tiltDb } = example;
  expect(Math.abs(value(lossRatio(cable('.750'), lowMhz, highMhz)) - ratio)).toBeLessThan(0.007);
  const tilt = value(tiltOfLossDb(cable('.750'), cableLossDb, lowMhz, highMhz));
  expect(Math.abs(tilt - tiltDb)).toBeLessThan(0.1);
  expect(Math.abs(tilt - 13.07)).toBeGreaterThan(0.3);
});

// 100 ft = 30.48 m: the definition of the tables.
it('loses in 100 ft what the table says, and twice that in twice the length', () => {
  expect(value(spanLossDb(cable('RG-6'), 1000, 30.48))).toBeCloseTo(6.55, 9);
  expect(value(spanLossDb(cable('RG-6'), 1000, 60.96))).toBeCloseTo(13.1, 9);
  expect(value(spanLossDb(cable('.625'), 750, 0))).toBe(0);
});

it('knows the length from the loss', () => {
  expect(value(lengthForLossM(cable('RG-11'), 55, 0.96))).toBeCloseTo(30.48, 9);
  expect(value(lengthForLossM(cable('RG-11'), 55, 0))).toBe(0);
});

it('has the tilt that its losses at both ends have', () => {
  const span = [cable('.625'), 300] as const;
  const high = value(spanLossDb(span[0], 870, span[1]));
  const low = value(spanLossDb(span[0], 54, span[1]));
  expect(value(spanTiltDb(...span, 54, 870))).toBeCloseTo(high - low, 9);
});

it('refuses negative losses and lengths, low above high, and drop cable beyond its table', () => {
  expect(spanLossDb(cable('.625'), 750, -1)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(lengthForLossM(cable('.625'), 750, -1)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(tiltOfLossDb(cable('.750'), -20, 54, 450)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(spanTiltDb(cable('.750'), 100, 450, 54)).toMatchObject({ ok: false, code: 'low-above-high' });
  expect(lossRatio(cable('.750'), 54, 54)).toMatchObject({ ok: false, code: 'low-above-high' });
  expect(spanTiltDb(cable('RG-6'), 30, 54, 1218)).toMatchObject({ ok: false, code: 'outside-table' });
});

it('comes back from length to loss to length', () => {
  const mhz = fc.double({ min: 5, max: 1000, noNaN: true });
  fc.assert(
    fc.property(
      fc.constantFrom(...CABLES),
      mhz,
      fc.double({ min: 0, max: 1000, noNaN: true }),
      (one, at, lengthM) => {
        const lossDb = value(spanLossDb(one, at, lengthM));
        return Math.abs(value(lengthForLossM(one, at, lossDb)) - lengthM) <= 1e-9 * (1 + lengthM);
      },
    ),
  );
});

it('is finite or refused, whatever it is asked', () => {
  fc.assert(
    fc.property(fc.constantFrom(...CABLES), anyNumber, anyNumber, anyNumber, (one, a, b, c) =>
      [
        spanLossDb(one, a, b),
        lengthForLossM(one, a, b),
        lossRatio(one, a, b),
        tiltOfLossDb(one, a, b, c),
        spanTiltDb(one, a, b, c),
      ].every((told) => !told.ok || Number.isFinite(told.value)),
    ),
  );
});
