import { describe, expect, it } from 'vitest';
import { edgeDb, leaving, type UncertainLine } from '../../../core/drift/leaving.ts';

const line = (over: Partial<UncertainLine> = {}): UncertainLine => ({
  valueDb: 0,
  perYearDb: -0.5,
  valueVariance: 0,
  slopeVariance: 0,
  covariance: 0,
  factor: 2,
  ...over,
});
const within1 = { fromDb: -1, toDb: 1 };

describe('a line that is certain', () => {
  it('leaves where it crosses: 1 dB at half a dB a year in two years', () => {
    const { earliestYears, expectedYears, latestYears } = leaving(line(), within1);
    for (const years of [earliestYears, expectedYears, latestYears]) expect(years).toBeCloseTo(2, 3);
  });
  it('leaves at the upper limit as well', () => {
    expect(leaving(line({ perYearDb: 0.25 }), within1).expectedYears).toBeCloseTo(4, 3);
  });
  it('is out at once where it is out', () => {
    expect(leaving(line({ valueDb: -1.2 }), within1)).toEqual({
      earliestYears: 0,
      expectedYears: 0,
      latestYears: 0,
    });
  });
  it('never leaves where it stands, or moves away from the only limit', () => {
    const never = { earliestYears: null, expectedYears: null, latestYears: null };
    expect(leaving(line({ perYearDb: 0 }), within1)).toEqual(never);
    expect(leaving(line({ perYearDb: -0.5 }), { fromDb: null, toDb: 1 })).toEqual(never);
  });
});

describe('a line that is uncertain', () => {
  // By hand, a slope of -0.5 with an error of 0.1 and a factor of 2: between -0.7 and -0.3 dB a year, 1 dB to go.
  it('leaves between what its steepest and its flattest slope say', () => {
    const { earliestYears, expectedYears, latestYears } = leaving(line({ slopeVariance: 0.01 }), within1);
    expect(earliestYears).toBeCloseTo(1 / 0.7, 2);
    expect(expectedYears).toBeCloseTo(2, 2);
    expect(latestYears).toBeCloseTo(1 / 0.3, 2);
  });
  it('has no latest date where the slope may as well be none', () => {
    const { earliestYears, latestYears } = leaving(line({ slopeVariance: 0.09 }), within1);
    expect(earliestYears).toBeCloseTo(1 / 1.1, 2);
    expect(latestYears).toBeNull();
  });
  it('may leave any day where the band reaches a limit already', () => {
    expect(leaving(line({ valueDb: -0.8, valueVariance: 0.04 }), within1).earliestYears).toBe(0);
  });
});

it('the edge of the band follows the covariance', () => {
  const one = line({ valueVariance: 0.04, slopeVariance: 0.01, covariance: 0.02 });
  expect(edgeDb(one, 0, 1)).toBeCloseTo(0.4, 12);
  expect(edgeDb(one, 2, 0)).toBeCloseTo(-1, 12);
  expect(edgeDb(one, 2, -1)).toBeCloseTo(-1 - 2 * Math.sqrt(0.04 + 0.08 + 0.04), 12);
});
