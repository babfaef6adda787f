import { expect, it } from 'vitest';
import { lowEndWords } from '../../../core/set-up/low-end-words.ts';
import { type Trend, trendOf } from '../../../core/trend/direction.ts';

const readings = (dbPerS: number, seconds: number) =>
  Array.from({ length: seconds * 10 + 1 }, (_, i) => ({
    atS: i / 10,
    // A wobble of a few hundredths, as the last digit of a meter has it.
    levelDbmv: 40 + dbPerS * (i / 10) + 0.03 * ((i % 3) - 1),
  }));

it('says how fast it falls, and to go on', () => {
  const trend: Trend = {
    direction: 'falling',
    changeDb: -0.2,
    overS: 8,
    confidence: 0.999,
    lessThanDb: null,
  };
  expect(lowEndWords(trend, 3)).toBe('falling 0.2 dB in 8 s: go on this way');
  expect(lowEndWords(trendOf(readings(-0.5, 4)), 3)).toMatch(
    /^falling \d\.\d dB in \d(\.\d)? s: go on this way$/,
  );
});

it('does not let a loop that works against the hand turn the hand round', () => {
  expect(lowEndWords(trendOf(readings(0.3, 6)), 3)).toMatch(
    /^rising .*: in automatic the loop brings it back, go on down$/,
  );
});

it('takes a level that stands still for no proof: the hand may rest', () => {
  expect(lowEndWords(trendOf(readings(0, 12)), 3)).toMatch(
    /^steady within \d\.\d+ dB for \d+ s: if the hand still turns down, it goes no further$/,
  );
});

it('asks for a turn first where nothing has moved yet', () => {
  expect(lowEndWords(trendOf(readings(0, 12)), 0.4)).toMatch(/^steady .*: turn down$/);
});

it('waits while there is too little to say', () => {
  expect(lowEndWords(null, 0)).toBe('too few readings yet');
});
