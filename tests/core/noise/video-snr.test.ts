import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cnrFromVideoSnrDb, videoSnrDb } from '../../../core/noise/video-snr.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const { snrLessUnweightedDb, weightedGainDb } = worked.handbook;

// Telecommunications handbook p. 436, eqs 17.4 and 17.5.
it('goes by the two equations of the handbook', () => {
  expect(videoSnrDb(43, 'weighted')).toEqual({ ok: true, value: 43 + weightedGainDb });
  const cnr = cnrFromVideoSnrDb(39, 'unweighted');
  expect(cnr.ok && cnr.value).toBeCloseTo(39 + snrLessUnweightedDb, 9);
});

it('comes back, and is finite or refused', () => {
  fc.assert(
    fc.property(anyNumber, fc.constantFrom('weighted', 'unweighted'), (cnrDb, weighting) => {
      const snr = videoSnrDb(cnrDb, weighting);
      if (!snr.ok) return Number.isNaN(cnrDb) || Math.abs(cnrDb) > 200;
      const back = cnrFromVideoSnrDb(snr.value, weighting);
      return !back.ok || Math.abs(back.value - cnrDb) < 1e-9;
    }),
  );
});
