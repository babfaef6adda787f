import { describe, expect, it } from 'vitest';
import { driftWords, leavingSaid } from '../../../core/drift/drift-words.ts';
import { stationDrift } from '../../../core/drift/station-drift.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import { START_MS, sweep, YEAR_MS } from './sweeps.ts';

const mill = quillmere.find(({ station }) => station.name === '07 Mill Lane')?.station;
const output = mill?.ports[0];
if (mill === undefined || output === undefined) throw new Error('Mill Lane is gone');
const said = (figures: readonly Parameters<typeof sweep>[1][]) => {
  const drift = stationDrift(
    mill,
    output,
    figures.map((one, n) => sweep(n, one)),
  );
  return drift === null ? null : driftWords(drift);
};

describe('in a table it is said', () => {
  it('which figure goes where, and how fast', () => {
    expect(said([0, 1, 2, 3].map((t) => ({ levelDb: -0.5 * t })))).toBe('level falls 0.5 dB a year');
    expect(said([0, 1, 2, 3].map((t) => ({ tiltDb: 0.5 * t })))).toBe('tilt rises 0.5 dB a year');
    expect(said([0, 1, 2, 3].map((t) => ({ flatnessDb: 1 + 0.5 * t })))).toBe('flatness grows 0.5 dB a year');
  });
  it('how steady is steady', () => {
    expect(said([0, 1, 2, 3].map(() => ({})))).toBe('steady within 0.1 dB a year');
  });
  it('that nothing can be said yet', () => {
    expect(said([{}, {}])).toBe('too few sweeps');
    expect(said([{ levelDb: 1 }, { levelDb: -1 }, { levelDb: 1 }])).toMatch(
      /^not sure yet, up to \d+\.\d dB a year$/,
    );
  });
});

describe('when it leaves is said', () => {
  const at = (earliestYears: number | null, latestYears: number | null) =>
    leavingSaid({ earliestYears, expectedYears: null, latestYears }, START_MS);
  it('as an interval where there is one', () => {
    expect(at(1, 3)).toEqual({
      at: 'between',
      earliestMs: START_MS + YEAR_MS,
      latestMs: START_MS + 3 * YEAR_MS,
    });
  });
  it('as "not before" where nothing tells the latest', () => {
    expect(at(1, null)).toEqual({ at: 'not-before', earliestMs: START_MS + YEAR_MS });
  });
  it('as any day, as out, and as not within ten years', () => {
    expect(at(0, null)).toEqual({ at: 'any-day' });
    expect(at(0, 0)).toEqual({ at: 'out' });
    expect(at(null, null)).toEqual({ at: 'not-within', years: 10 });
  });
});
