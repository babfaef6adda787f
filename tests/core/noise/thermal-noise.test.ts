import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  ANALOG_NOISE_EUROPE_MHZ,
  ANALOG_NOISE_MHZ,
  BOLTZMANN,
  thermalNoiseDbmv,
} from '../../../core/noise/thermal-noise.ts';
import { dbm75FromDbmv, millivoltFromDbmv } from '../../../core/units.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const noise = (mhz: number, kelvin?: number) => {
  const told = thermalNoiseDbmv(mhz, kelvin);
  if (!told.ok) throw new Error(told.help);
  return told.value;
};

// k T B from the exact k, worked beside the reference to a thousandth.
it('is k T B in every bandwidth that is in use', () => {
  for (const [mhz = Number.NaN, dbmv = Number.NaN] of worked.thermalAt290K)
    expect(noise(mhz)).toBeCloseTo(dbmv, 3);
  expect(noise(1e-6)).toBeCloseTo(worked.ktDbmvPerHz, 3);
  expect(dbm75FromDbmv(noise(1e-6))).toBeCloseTo(worked.ktDbmPerHz, 3);
  expect([ANALOG_NOISE_MHZ, ANALOG_NOISE_EUROPE_MHZ]).toEqual([4, 4.75]);
});

// Telecommunications handbook sec. 17.3: 2.2 uV open circuit, 1.1 uV delivered, -59 dBmV in 4 MHz, printed to two digits.
it('is the handbook value to the digits that it prints', () => {
  expect(noise(4)).toBeCloseTo(worked.handbook.noiseDbmv, 0);
  expect(1000 * millivoltFromDbmv(noise(4))).toBeCloseTo(worked.handbook.deliveredMicrovolt, 1);
  expect(1e6 * Math.sqrt(4 * BOLTZMANN * 290 * 75 * 4e6)).toBeCloseTo(
    worked.handbook.openCircuitMicrovolt,
    1,
  );
});

it('falls by 3 dB with half the temperature, and is finite or refused', () => {
  expect(noise(4, 290) - noise(4, 145)).toBeCloseTo(3.0103, 4);
  for (const [mhz, kelvin] of [
    [0, 290],
    [-4, 290],
    [4, 0],
    [4, -1],
    [Number.NaN, 290],
    [4, Number.POSITIVE_INFINITY],
  ] as const)
    expect(thermalNoiseDbmv(mhz, kelvin).ok).toBe(false);
  fc.assert(
    fc.property(anyNumber, anyNumber, (mhz, kelvin) => {
      const told = thermalNoiseDbmv(mhz, kelvin);
      return !told.ok || Number.isFinite(told.value);
    }),
  );
});
