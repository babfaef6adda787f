import fc from 'fast-check';
import { expect, it } from 'vitest';
import { weightedVideoSnrDb } from '../../../core/noise/video-snr.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

// Telecommunications handbook p. 436, eq. 17.5.
it('goes by the equation of the handbook', () =>
  expect(weightedVideoSnrDb(43)).toEqual({ ok: true, value: 43 + worked.handbook.weightedGainDb }));

it('is finite or refused', () => {
  fc.assert(
    fc.property(anyNumber, (cnrDb) => {
      const snr = weightedVideoSnrDb(cnrDb);
      return snr.ok ? Number.isFinite(snr.value) : Number.isNaN(cnrDb) || Math.abs(cnrDb) > 200;
    }),
  );
});
