import { describe, expect, it } from 'vitest';
import type { Found } from '../../../core/propose/rank.ts';
import { recommend } from '../../../core/propose/recommend.ts';

const found = (worstDb: number, changeCount: number, padDb = 0): Found => ({
  worstDb,
  changeCount,
  padDb,
  indices: [Math.round(worstDb * 100)],
});
const options = { toleranceDb: 1, slackDb: 0.25, maxAlternatives: 5 };
const lists = [
  [found(2.4, 0)],
  [found(1.3, 1), found(1.5, 1)],
  [found(0.6, 2), found(0.8, 2), found(1.4, 2)],
  [found(0.5, 3), found(0.9, 3)],
  [found(0.55, 4)],
];

describe('recommend', () => {
  it('takes the fewest changes within the tolerance, not the best of all', () => {
    const { best, recommended } = recommend(lists, options) ?? {};
    expect(best?.worstDb).toBe(0.5);
    expect(recommended).toMatchObject({ worstDb: 0.6, changeCount: 2 });
  });
  it('takes the fewest changes within the slack of the best where the tolerance is out of reach', () => {
    const tight = { ...options, toleranceDb: 0.1 };
    expect(recommend(lists, tight)?.recommended.worstDb).toBe(0.6);
    expect(recommend(lists, { ...tight, slackDb: 0 })?.recommended.worstDb).toBe(0.5);
    expect(recommend(lists, { ...tight, slackDb: 0.8 })?.recommended.worstDb).toBe(1.3);
  });
  it('takes one exactly at the limit, whatever rounding did to it', () => {
    const third = [[found(2, 0)], [found(0.1 + 0.2 + 0.25, 1)], [found(0.3, 2)]];
    expect(recommend(third, { ...options, toleranceDb: 0.1 })?.recommended.changeCount).toBe(1);
  });
  it('leaves a good station alone', () => {
    const { recommended, alternatives } = recommend([[found(0.4, 0)], [found(0.3, 1)]], options) ?? {};
    expect(recommended?.changeCount).toBe(0);
    expect(alternatives?.map(({ worstDb }) => worstDb)).toEqual([0.3]);
  });
  it('offers first what nothing betters in both changes and worst channel, then more within the limit', () => {
    const worst = recommend(lists, options)?.alternatives.map(({ worstDb }) => worstDb);
    // 0.9 and 0.55 need more changes than the recommended 0.6 and buy less than 0.1 dB.
    expect(worst).toEqual([1.3, 0.5, 0.8]);
    expect(recommend(lists, { ...options, maxAlternatives: 1 })?.alternatives).toHaveLength(1);
  });
  it('gives the Pareto set of changes against worst channel, staying included', () => {
    const pareto = recommend([...lists, [found(0.45, 5)]], options)?.pareto;
    expect(pareto?.map(({ changeCount, worstDb }) => [changeCount, worstDb])).toEqual([
      ...[
        [0, 2.4],
        [1, 1.3],
        [2, 0.6],
        [3, 0.5],
        [5, 0.45],
      ],
    ]);
  });
  it('has nothing to say where there is no combination', () =>
    expect(recommend([[], []], options)).toBeNull());
});
