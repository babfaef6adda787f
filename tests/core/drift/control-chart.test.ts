import { describe, expect, it } from 'vitest';
import { controlChart } from '../../../core/drift/control-chart.ts';
import nist from '../../data/published/nist-individuals-chart.json' with { type: 'json' };

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: its worked example.
describe('the worked example of the NIST handbook', () => {
  const chart = controlChart(nist.values);
  if (chart === null) throw new Error('no chart');
  it('has the published center and mean range', () => {
    expect(chart.center).toBeCloseTo(nist.mean, 10);
    expect(chart.meanRange).toBeCloseTo(nist.meanRange, 4);
  });
  it('has the published limits', () => {
    expect(chart.upper).toBeCloseTo(nist.upper, 4);
    expect(chart.lower).toBeCloseTo(nist.lower, 4);
  });
  it('has the textbook factors: 2.66 mean ranges for values, 3.267 for ranges', () => {
    expect((chart.upper - chart.center) / chart.meanRange).toBeCloseTo(2.66, 2);
    expect(chart.rangeUpper / chart.meanRange).toBeCloseTo(3.267, 10);
  });
  it('is provisional: ten values are fewer than twenty', () => expect(chart.isProvisional).toBe(true));
});

it('takes the mean of the ranges between neighbours, not of all pairs', () => {
  expect(controlChart([0, 1, 0, 3])?.ranges).toEqual([1, 1, 3]);
});
it('is firm from twenty values on', () => {
  const many = Array.from({ length: 20 }, (_, i) => i % 2);
  expect(controlChart(many)?.isProvisional).toBe(false);
  expect(controlChart(many.slice(1))?.isProvisional).toBe(true);
});
it('is none below three values', () => {
  expect(controlChart([1, 2])).toBeNull();
  expect(controlChart([])).toBeNull();
});
