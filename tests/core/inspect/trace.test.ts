import { describe, expect, it } from 'vitest';
import { traceOf } from '../../../core/inspect/trace.ts';

describe('a sweep made ready', () => {
  it('is sorted, each frequency once, without rows that are no reading', () => {
    const trace = traceOf([
      { frequencyMhz: 69, levelDbmv: 3 },
      { frequencyMhz: 57, levelDbmv: 1 },
      { frequencyMhz: 63, levelDbmv: 2 },
      { frequencyMhz: 63, levelDbmv: 4 },
      { frequencyMhz: null, levelDbmv: 9 },
      { frequencyMhz: 75, levelDbmv: null },
      { frequencyMhz: 81, levelDbmv: 0, unlocked: true },
      { frequencyMhz: 0, levelDbmv: 0 },
    ]);
    expect(trace.mhz).toEqual([57, 63, 69]);
    expect(trace.dbmv).toEqual([1, 3, 3]);
    expect(trace.stepMhz).toBe(6);
  });

  it('knows where a wide gap parts it', () => {
    const trace = traceOf(
      [100, 106, 112, 118, 142, 148, 300, 306].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 0 })),
    );
    expect(trace.island).toEqual([0, 0, 0, 0, 0, 0, 1, 1]);
    expect(trace.widestMhz).toBe(48);
  });

  it('keeps analog carriers apart where there are enough of both', () => {
    const row = (frequencyMhz: number, kind: 'analog' | 'qam') => ({ frequencyMhz, levelDbmv: 0, kind });
    const few = traceOf([row(1, 'analog'), row(2, 'analog'), row(3, 'qam'), row(4, 'qam'), row(5, 'qam')]);
    expect(few.otherFamily).toEqual([false, false, false, false, false]);
    const both = traceOf(
      [1, 2, 3].map((f) => row(f, 'analog')).concat([4, 5, 6, 7].map((f) => row(f, 'qam'))),
    );
    expect(both.otherFamily).toEqual([true, true, true, false, false, false, false]);
  });

  it('takes the commonest spacing', () => {
    const stepOf = (...mhz: readonly number[]) =>
      traceOf(mhz.map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 0 }))).stepMhz;
    expect(stepOf(57, 63, 69, 79, 85, 91, 300)).toBe(6);
    expect(stepOf(1)).toBe(0);
    expect(traceOf([]).mhz).toEqual([]);
  });
});
