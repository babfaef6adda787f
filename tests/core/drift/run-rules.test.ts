import { describe, expect, it } from 'vitest';
import { controlChart } from '../../../core/drift/control-chart.ts';
import { type RuleId, ruleIds, rules, signalsOf } from '../../../core/drift/run-rules.ts';
import nist from '../../data/published/nist-individuals-chart.json' with { type: 'json' };

const plain = { center: 0, sigma: 1 };
const broken = (values: readonly number[], rule: RuleId) =>
  signalsOf(values, plain)
    .filter((signal) => signal.rule === rule)
    .map(({ place }) => place);

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2: "the process is in control" for its example.
it('finds no point outside the limits in the example of the NIST handbook', () => {
  const chart = controlChart(nist.values);
  if (chart === null) throw new Error('no chart');
  expect(signalsOf(nist.values, chart).filter(({ rule }) => rule === 'beyond-3-sigma')).toEqual([]);
});

// Each rule in the words of NIST/SEMATECH e-Handbook, 6.3.2: the shortest run that breaks it, and one that nearly does.
describe('the rules', () => {
  it('one beyond three sigma', () => {
    expect(broken([0, 3.01, -3.01, 3, -2.99], 'beyond-3-sigma')).toEqual([1, 2]);
  });
  it('two of three beyond two sigma on one side', () => {
    expect(broken([2.1, 0, 2.1], 'two-of-three')).toEqual([2]);
    expect(broken([2.1, 2.1], 'two-of-three')).toEqual([1]);
    expect(broken([2.1, 0, -2.1], 'two-of-three')).toEqual([]);
    expect(broken([2.1, 0, 0, 2.1], 'two-of-three')).toEqual([]);
  });
  it('four of five beyond one sigma on one side', () => {
    expect(broken([-1.1, -1.1, 0, -1.1, -1.1], 'four-of-five')).toEqual([4]);
    expect(broken([-1.1, -1.1, 0, 0, -1.1, -1.1], 'four-of-five')).toEqual([]);
    expect(broken([1.1, 1.1, -1.1, 1.1, -1.1], 'four-of-five')).toEqual([]);
  });
  it('eight in a row on one side', () => {
    const eight = Array.from({ length: 8 }, () => 0.1);
    expect(broken(eight, 'eight-on-a-side')).toEqual([7]);
    expect(broken(eight.slice(1), 'eight-on-a-side')).toEqual([]);
    expect(broken(eight.with(3, 0), 'eight-on-a-side')).toEqual([]);
  });
  it('six in a row, each farther the same way', () => {
    expect(broken([0, 0.1, 0.2, 0.3, 0.4, 0.5], 'six-in-a-row')).toEqual([5]);
    expect(broken([0.5, 0.4, 0.3, 0.2, 0.1, 0], 'six-in-a-row')).toEqual([5]);
    expect(broken([0, 0.1, 0.2, 0.2, 0.4, 0.5], 'six-in-a-row')).toEqual([]);
    expect(broken([0, 0.1, 0.2, 0.3, 0.4], 'six-in-a-row')).toEqual([]);
  });
  it('fourteen in a row, up and down by turns', () => {
    const turns = Array.from({ length: 14 }, (_, i) => (i % 2) * 0.1);
    expect(broken(turns, 'fourteen-alternating')).toEqual([13]);
    expect(broken(turns.slice(1), 'fourteen-alternating')).toEqual([]);
    expect(broken(turns.with(6, 0.1), 'fourteen-alternating')).toEqual([]);
  });
  it('each have words and the name of those who published them', () => {
    for (const rule of ruleIds) {
      expect(rules[rule].words.length).toBeGreaterThan(8);
      expect(rules[rule].name).toMatch(/Western Electric \d|Nelson \d/);
    }
  });
});

it('says nothing of values that never moved', () => {
  expect(signalsOf([1, 1, 1, 1, 1, 1, 1, 1, 1], { center: 1, sigma: 0 })).toEqual([]);
});
