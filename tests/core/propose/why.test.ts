import { describe, expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { remainsOf, termsOf, whyOf } from '../../../core/propose/why.ts';

const design: Design = {
  ...{ lowMhz: 54, lowDbmv: 36, highMhz: 870, highDbmv: 46, shape: 'linear' },
  ...{ toleranceDb: 1, flatnessDb: 2.5 },
};
const seen = (lowDb: number, highDb: number, flatnessDb: number, worstDb: number) => ({
  worstDb,
  flatnessDb,
  fit: { lowDbmv: 36 + lowDb, highDbmv: 46 + highDb, tiltDb: 10 + highDb - lowDb },
});

describe('whyOf', () => {
  it.each([
    ['level', seen(-2, -2.2, 0.6, 2.3), 'Level: 2.0 dB low at both ends of the band.'],
    ['tilt', seen(0, -2.1, 0.4, 2.2), 'Tilt: the high end is 2.1 dB too low.'],
    ['shape', seen(0.1, -0.1, 5, 3.6), 'Shape: channels lie up to 2.5 dB to each side of their own line.'],
    [null, seen(0.1, -0.1, 0.6, 0.4), 'Worst channel 0.4 dB from design, within 1.0 dB.'],
  ])('names %s', (dominant, before, text) => expect(whyOf(before, design)).toMatchObject({ dominant, text }));
  it('gives the parts in dB', () => {
    const { levelDb, tiltDb, shapeDb } = termsOf(seen(1, -2, 3, 4), design);
    expect([levelDb, tiltDb, shapeDb]).toEqual([0, expect.closeTo(-3, 12), expect.closeTo(1.5, 12)]);
    expect(termsOf(seen(1.5, 3, 0.5, 3), design).levelDb).toBeCloseTo(1.5, 12);
  });
});

describe('remainsOf', () => {
  it('says that it is enough', () =>
    expect(remainsOf(seen(0, 0.2, 0.4, 0.4), 0.2, design)).toMatchObject({
      ...{ dominant: null, needsRepair: false, text: '0.4 dB left at the worst channel, within 1.0 dB.' },
    }));
  it('says what cannot be mended by plug-ins', () =>
    expect(remainsOf(seen(0, 0.2, 5, 3.4), 2.4, design)).toMatchObject({
      needsRepair: true,
      text: '3.4 dB left at the worst channel; 2.4 dB of it is shape and cannot be mended by plug-ins.',
    }));
  it('says what the kit does not reach', () =>
    expect(remainsOf(seen(-2, -2.4, 0.6, 2.5), 0.3, design)).toMatchObject({
      ...{ dominant: 'level', needsRepair: false },
      text: expect.stringContaining('mostly level'),
    }));
});
