import { describe, expect, it } from 'vitest';
import { rangeTest } from '../../../core/gain-control/range.ts';

// Up 3 to 5 dB, down 5 to 7 dB, in all 9.5 to 11.5 dB: common practice, no published source.
describe('the range test', () => {
  it.each([
    [4, 6, 'pass'],
    [3, 6.5, 'pass'],
    [5, 5, 'pass'],
    [3, 7, 'pass'],
    [4.5, 7, 'pass'],
    // 3.1 + 6.4 = 9.5 and 4.6 + 6.9 = 11.5 in decimals.
    [3.1, 6.4, 'pass'],
    [4.6, 6.9, 'pass'],
    // One outside by up to 0.5 dB.
    [2.9, 6.9, 'undecided'],
    [2.5, 7, 'undecided'],
    [5.5, 5, 'undecided'],
    [4.5, 7.5, 'undecided'],
    [5, 4.5, 'undecided'],
    [3, 6, 'undecided'],
    [5, 7, 'undecided'],
    // Further out.
    [2.49, 7, 'fail'],
    [5.51, 5, 'fail'],
    [4, 7.51, 'fail'],
    [5, 4.49, 'fail'],
    [3, 5.9, 'fail'],
    [5.1, 7, 'fail'],
    [0, 0, 'fail'],
  ] as const)('up %d dB, down %d dB: %s', (upDb, downDb, verdict) => {
    expect(rangeTest(upDb, downDb)).toEqual({ verdict, upDb, downDb, totalDb: upDb + downDb });
  });

  it('takes another uncertainty', () => {
    expect(rangeTest(2.9, 6.9, 0).verdict).toBe('fail');
    expect(rangeTest(2.9, 6.9, 0.1).verdict).toBe('undecided');
    expect(rangeTest(2, 7.5, 1).verdict).toBe('undecided');
    expect(rangeTest(3, 6.5, 0).verdict).toBe('pass');
  });

  it.each([
    [-1, 6],
    [4, Number.NaN],
    [Number.POSITIVE_INFINITY, 6],
  ])('throws on up %d, down %d', (upDb, downDb) => {
    expect(() => rangeTest(upDb, downDb)).toThrow(RangeError);
  });
});
