import { describe, expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { targetDbmv, unfitDesign } from '../../../core/line/design-line.ts';

const linear: Design = {
  lowMhz: 54,
  lowDbmv: 36,
  highMhz: 870,
  highDbmv: 46,
  shape: 'linear',
  toleranceDb: 1,
  flatnessDb: 2.5,
};
const cable: Design = { ...linear, lowMhz: 100, highMhz: 484, shape: 'cable' };

describe('targetDbmv', () => {
  it('meets both ends of the design', () => {
    expect(targetDbmv(linear, 54)).toBe(36);
    expect(targetDbmv(linear, 870)).toBe(46);
    expect(targetDbmv(cable, 484)).toBe(46);
  });
  it('is straight in f, or straight in sqrt f', () => {
    expect(targetDbmv(linear, 462)).toBe(41);
    expect(targetDbmv(cable, 256)).toBe(41);
  });
  it('goes on as a line outside', () => {
    expect(targetDbmv(linear, 870 + 81.6)).toBeCloseTo(47, 12);
    expect(targetDbmv(cable, 16)).toBeCloseTo(31, 12);
  });
});

describe('unfitDesign', () => {
  it('has nothing against a design', () => expect(unfitDesign(linear)).toBeNull());
  it.each([
    [{ lowMhz: 870, highMhz: 54 }, 'design, 870 to 54 MHz'],
    [{ lowMhz: 0 }, 'design, 0 to 870 MHz'],
    [{ lowDbmv: Number.NaN }, 'design, lowDbmv NaN'],
    [{ highDbmv: Infinity }, 'design, highDbmv Infinity'],
    [{ toleranceDb: -1 }, 'design, toleranceDb -1'],
    [{ flatnessDb: 0 }, 'design, flatnessDb 0'],
  ])('names %o', (change, where) =>
    expect(unfitDesign({ ...linear, ...change })).toMatchObject({ code: 'bad-design', where }),
  );
});
