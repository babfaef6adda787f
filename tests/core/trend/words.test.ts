import { expect, it } from 'vitest';
import { trendWords } from '../../../core/trend/words.ts';

const moving = { confidence: 0.9999, lessThanDb: null };

it('says it as one would beside a control', () => {
  expect(trendWords({ ...moving, direction: 'falling', changeDb: -0.21, overS: 8 })).toBe(
    'falling 0.2 dB in 8 s',
  );
  expect(trendWords({ ...moving, direction: 'rising', changeDb: 1.84, overS: 1.5 })).toBe(
    'rising 1.8 dB in 1.5 s',
  );
  expect(trendWords({ ...moving, direction: 'rising', changeDb: 0.06, overS: 23.9 })).toBe(
    'rising less than 0.1 dB in 24 s',
  );
  expect(
    trendWords({ direction: 'steady', changeDb: 0.02, overS: 12, confidence: 0.95, lessThanDb: 0.31 }),
  ).toBe('steady within 0.3 dB for 12 s');
  // A meter tells tenths: what is steadier than that is not said to be.
  expect(
    trendWords({ direction: 'steady', changeDb: 0.01, overS: 4, confidence: 0.95, lessThanDb: 0.09 }),
  ).toBe('steady within 0.1 dB for 4 s');
  expect(trendWords(null)).toBe('too few readings yet');
});
