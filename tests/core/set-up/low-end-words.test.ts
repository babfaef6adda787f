import { expect, it } from 'vitest';
import { lowEndAdvice } from '../../../core/set-up/low-end-words.ts';
import { trendOf } from '../../../core/trend/direction.ts';
import { trendWords } from '../../../core/trend/words.ts';

const readings = (dbPerS: number, seconds: number) =>
  Array.from({ length: seconds * 10 + 1 }, (_, i) => ({
    atS: i / 10,
    // A wobble of a few hundredths, as the last digit of a meter has it.
    levelDbmv: 40 + dbPerS * (i / 10) + 0.03 * ((i % 3) - 1),
  }));

it('says how fast it falls, and to go on', () => {
  const trend = trendOf(readings(-0.025, 8));
  expect(`${trendWords(trend)}: ${lowEndAdvice(trend, 3)}`).toMatch(
    /^falling 0\.\d+ dB in \d(\.\d)? s: go on this way$/,
  );
});

it('does not let a loop that works against the hand turn the hand round', () => {
  expect(lowEndAdvice(trendOf(readings(0.3, 6)), 3)).toBe('in automatic the loop brings it back: go on down');
});

it('takes a level that stands still for no proof: the hand may rest', () => {
  expect(lowEndAdvice(trendOf(readings(0, 12)), 3)).toBe('if the hand still turns down, it goes no further');
});

it('does not speak of an end while the trend is young or could hide a change', () => {
  const trend = { direction: 'steady', changeDb: 0.1, overS: 1, confidence: 0.95, lessThanDb: 0.3 } as const;
  expect(lowEndAdvice(trend, 3)).toBe('go on down');
  expect(lowEndAdvice({ ...trend, overS: 8, lessThanDb: 0.8 }, 3)).toBe('go on down');
});

it('asks for a turn first where nothing has moved yet', () => {
  expect(lowEndAdvice(trendOf(readings(0, 12)), 0.4)).toBe('turn down');
  expect(lowEndAdvice(null, 0)).toBe('');
});
