import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addingLaws,
  CSO_BETWEEN,
  CSO_POWER,
  type Distortion,
  distortionAtLevelDbc,
  distortionOfAlikeDbc,
  distortionOfUnlikeDbc,
} from '../../../core/noise/distortion.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const value = (told: { ok: true; value: number } | { ok: false; help: string }): number => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};

// CTB 20 log N, second order 10 log N: cabl.com "CATV Formulas"; 15 log N from memory.
describe('ten stations alike of -70 dBc', () => {
  it('have a CTB of -50 dBc, and XMOD alike', () => {
    const { oneDbc, count, dbc } = worked.ctb;
    expect(value(distortionOfAlikeDbc('ctb', oneDbc, count))).toBeCloseTo(dbc, 9);
    expect(value(distortionOfAlikeDbc('xmod', oneDbc, count))).toBeCloseTo(dbc, 9);
  });

  it('have a CSO of -55 dBc by 15 log, which is taken first and said to be from memory, -60 by 10 log', () => {
    const { oneDbc, count, dbc15Log, dbc10Log } = worked.cso;
    expect(value(distortionOfAlikeDbc('cso', oneDbc, count))).toBeCloseTo(dbc15Log, 9);
    expect(value(distortionOfAlikeDbc('cso', oneDbc, count, CSO_POWER))).toBeCloseTo(dbc10Log, 9);
    expect(addingLaws('cso')).toEqual([CSO_BETWEEN, CSO_POWER]);
    expect(CSO_BETWEEN.source).toContain('from memory');
  });
});

// 20 log sum 10^(-x/20): cabl.com. Two of -60 dBc in step are twice the voltage, 6.02 dB worse.
it('adds unlike stations by voltage for CTB', () => {
  expect(value(distortionOfUnlikeDbc('ctb', [-60, -60]))).toBeCloseTo(-53.979, 3);
  expect(value(distortionOfUnlikeDbc('ctb', [-60, -66]))).toBeCloseTo(
    20 * Math.log10(0.001 + 0.000501187),
    3,
  );
  expect(value(distortionOfUnlikeDbc('cso', [-60, -60], CSO_POWER))).toBeCloseTo(-56.99, 2);
});

// 2 dB a dB: cabl.com; 1 dB a dB for CSO from memory.
it('grows with the output level by its order', () => {
  expect(value(distortionAtLevelDbc('ctb', -70, 3))).toBe(-64);
  expect(value(distortionAtLevelDbc('xmod', -70, -3))).toBe(-76);
  expect(value(distortionAtLevelDbc('cso', -70, 3))).toBe(-67);
});

it('refuses a figure without its sign, no station, half a station, and a law that is not the kind’s', () => {
  expect(distortionOfAlikeDbc('ctb', 70, 10)).toMatchObject({
    ok: false,
    code: 'out-of-range',
    where: 'CTB 70 dBc',
  });
  expect(distortionOfUnlikeDbc('cso', [])).toMatchObject({ ok: false });
  expect(distortionOfAlikeDbc('ctb', -70, 1.5)).toMatchObject({ ok: false });
  expect(distortionOfAlikeDbc('ctb', -70, 10, CSO_POWER)).toMatchObject({ ok: false, code: 'no-such-law' });
  expect(distortionAtLevelDbc('ctb', -70, Number.NaN)).toMatchObject({ ok: false, code: 'not-a-number' });
});

it('is the same both ways for stations alike, and finite or refused', () => {
  const kinds = fc.constantFrom<Distortion>('ctb', 'xmod', 'cso');
  fc.assert(
    fc.property(
      kinds,
      fc.double({ min: -120, max: 0, noNaN: true }),
      fc.integer({ min: 1, max: 60 }),
      (kind, dbc, count) => {
        const unlike = value(
          distortionOfUnlikeDbc(
            kind,
            Array.from({ length: count }, () => dbc),
          ),
        );
        return Math.abs(unlike - value(distortionOfAlikeDbc(kind, dbc, count))) < 1e-9;
      },
    ),
  );
  fc.assert(
    fc.property(kinds, fc.array(anyNumber), anyNumber, (kind, dbcs, other) =>
      [
        distortionOfUnlikeDbc(kind, dbcs),
        distortionOfAlikeDbc(kind, dbcs[0] ?? 0, other),
        distortionAtLevelDbc(kind, dbcs[0] ?? 0, other),
      ].every((told) => !told.ok || Number.isFinite(told.value)),
    ),
  );
});
