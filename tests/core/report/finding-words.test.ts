import { expect, it } from 'vitest';
import { findingWords } from '../../../core/report/finding-words.ts';

const N = '\u00A0';
it('says each kind of finding in one sentence', () => {
  expect(
    findingWords(
      { kind: 'ripple', periodMhz: 31, peakToPeakDb: 3.24, distanceM: 4.2, distanceFt: 13.8 },
      'ft',
    ),
  ).toBe(`Ripple: 3.2${N}dB peak to peak every 31${N}MHz; two mismatches 14${N}ft apart.`);
  expect(findingWords({ kind: 'notch', centerMhz: 401.04, depthDb: 6, widthMhz: 18 }, 'm')).toBe(
    `Notch: 6.0${N}dB deep at 401${N}MHz, 18${N}MHz wide.`,
  );
  expect(findingWords({ kind: 'rolloff', edge: 'high', fromMhz: 780, depthDb: 4 }, 'm')).toContain(
    'at the high end',
  );
  expect(findingWords({ kind: 'missing', frequencyMhz: 711.25 }, 'm')).toBe(
    `Missing: no carrier at 711.25${N}MHz.`,
  );
  expect(findingWords({ kind: 'step', atMhz: 550, stepDb: -6 }, 'm')).toContain('\u22126.0');
});
