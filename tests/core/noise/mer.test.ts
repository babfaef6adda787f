import fc from 'fast-check';
import { expect, it } from 'vitest';
import { J83B_64_QAM_MSYM, J83B_256_QAM_MSYM, type MerInput, merEstimate } from '../../../core/noise/mer.ts';
import { anyNumber } from '../../support/any-number.ts';

const mer = (input: MerInput) => {
  const told = merEstimate(input);
  if (!told.ok) throw new Error(`${told.where}: ${told.help}`);
  return told.value;
};
const base: MerInput = {
  cnrDb: 48.2,
  cnrBandwidthMhz: 4,
  levelOffsetDb: -6,
  symbolRateMsym: J83B_256_QAM_MSYM,
};

// Noise in 4 MHz -59.204, in 5.36 MHz -57.933 dBmV (k T B, worked beside the reference): 1.271 dB more noise.
it('carries an analog carrier to noise over to a QAM channel 6 dB down in its own bandwidth', () => {
  expect(mer(base).merDb).toBeCloseTo(48.2 - 6 - (59.204 - 57.933), 2);
});

// Combining as Hranac, "Broadband: Total Power, Part 2": 53 and 53 dB are 49.99 dB.
it('never beats what else blurs the constellation', () => {
  const input = { ...base, cnrDb: 53, levelOffsetDb: 0, cnrBandwidthMhz: J83B_256_QAM_MSYM };
  expect(mer({ ...input, otherRatiosDb: [53] }).merDb).toBeCloseTo(49.99, 2);
  expect(mer({ ...input, otherRatiosDb: [43, 60] }).merDb).toBeLessThan(43);
});

it('says all that it took for granted', () => {
  expect(mer(base).assumptions.join('; ')).toMatch(/white noise.*nothing but noise.*ideal receiver/);
  expect(mer({ ...base, otherRatiosDb: [43] }).assumptions.join('; ')).toMatch(
    /1 other ratio .*ideal receiver/,
  );
});

// ITU-T J.83 Annex B.
it('knows the symbol rates of both orders', () => {
  expect([J83B_64_QAM_MSYM, J83B_256_QAM_MSYM]).toEqual([5.056941, 5.360537]);
});

it('is finite or refused, whatever it is asked', () => {
  expect(merEstimate({ ...base, symbolRateMsym: 0 })).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(merEstimate({ ...base, otherRatiosDb: [Number.NaN] })).toMatchObject({
    ok: false,
    code: 'not-a-number',
  });
  fc.assert(
    fc.property(
      fc.array(anyNumber, { minLength: 5, maxLength: 5 }),
      ([a = 0, b = 0, c = 0, d = 0, e = 0]) => {
        const told = merEstimate({
          cnrDb: a,
          cnrBandwidthMhz: b,
          levelOffsetDb: c,
          symbolRateMsym: d,
          otherRatiosDb: [e],
        });
        return !told.ok || Number.isFinite(told.value.merDb);
      },
    ),
  );
});
