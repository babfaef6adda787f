import { describe, expect, it } from 'vitest';
import { type HeadlineParts, headlineOf } from '../../../core/line/headline.ts';

const inOrder: HeadlineParts = {
  verdict: 'pass',
  toleranceDb: 1,
  low: { frequencyMhz: 57, deviationDb: 0.1 },
  high: { frequencyMhz: 867, deviationDb: -0.2 },
  designTiltDb: 10,
  tiltDeviationDb: -0.3,
  flatness: { valueDb: 1.1, targetDb: 2.5 },
  worst: { frequencyMhz: 345, deviationDb: -0.4 },
};
const off = (lowDb: number, highDb: number, more: Partial<HeadlineParts> = {}): string =>
  headlineOf({
    ...inOrder,
    verdict: 'fail',
    low: { frequencyMhz: 57, deviationDb: lowDb },
    high: { frequencyMhz: 867, deviationDb: highDb },
    tiltDeviationDb: highDb - lowDb,
    ...more,
  });

describe('readings to words', () => {
  it('on design', () => expect(headlineOf(inOrder)).toBe('On design: worst channel 0.4 dB'));

  it.each([
    [0.1, -2.1, '2.1 dB low at 867 MHz, right at the low end'],
    [-0.9, 1.8, '1.8 dB high at 867 MHz, right at the low end'],
    [1.8, 0, '1.8 dB high at 57 MHz, right at the high end'],
    [-4.25, 1, '4.3 dB low at 57 MHz, right at the high end'],
    [-3.0, -3.2, '3.1 dB low all across'],
    [2.5, 1.6, '2.0 dB high all across'],
    [-1.5, -4, '1.5 dB low at 57 MHz, 4.0 dB low at 867 MHz'],
    [1.1, -1.2, 'Level right, tilt 2.3 dB short'],
    [-1.2, 1.4, 'Level right, tilt 2.6 dB too much'],
    [-1.1, 5, '1.1 dB low at 57 MHz, 5.0 dB high at 867 MHz'],
  ])('low end %d, high end %d: %s', (lowDb, highDb, words) => expect(off(lowDb, highDb)).toBe(words));

  it('says short of a tilt that falls, where the design falls', () => {
    expect(off(-1.2, 1.2, { designTiltDb: -6 })).toBe('Level right, tilt 2.4 dB short');
    expect(off(1.2, -1.2, { designTiltDb: -6 })).toBe('Level right, tilt 2.4 dB too much');
  });
  it('says which way it goes where the design is flat', () => {
    expect(off(1.2, -1.2, { designTiltDb: 0 })).toBe(
      'Level right, but it falls 2.4 dB where the design is flat',
    );
    expect(off(-1.2, 1.2, { designTiltDb: 0 })).toBe(
      'Level right, but it rises 2.4 dB where the design is flat',
    );
  });
  it('names a channel when the line is right', () => {
    const worst = { frequencyMhz: 345.25, deviationDb: -1.4 };
    expect(off(0.2, 0.3, { worst })).toBe('Level and tilt right, but 1.4 dB low at 345 MHz');
  });
  it('names flatness when that is what fails, alone or beside the level', () => {
    const flatness = { valueDb: 3.1, targetDb: 2.5 };
    expect(off(0.2, 0.3, { flatness })).toBe('Level and tilt right, flatness 3.1 of 2.5 dB');
    expect(off(-3, -3, { flatness })).toBe('3.0 dB low all across, flatness 3.1 of 2.5 dB');
  });
});
