import { expect, it } from 'vitest';
import type { Trend } from '../../../core/trend/direction.ts';
import { wayWords, whichWay } from '../../../core/trend/which-way.ts';

const going = (direction: Trend['direction']): Trend => ({
  direction,
  changeDb: direction === 'falling' ? -0.6 : 0.6,
  overS: 2,
  confidence: 0.99,
  lessThanDb: direction === 'steady' ? 0.3 : null,
});

// No published source: each line is what one technician says to another beside a control.
it.each([
  ['falling', 0.9, 'go-on', 'falling: go on this way'],
  ['rising', 0.9, 'turn-back', 'rising: turn back'],
  ['falling', -0.9, 'turn-back', 'falling: turn back'],
  ['rising', -0.9, 'go-on', 'rising: go on this way'],
  ['steady', 0.9, 'turn-down', 'steady: turn down'],
  ['steady', -0.9, 'turn-up', 'steady: turn up'],
  ['steady', 0.1, 'leave-it', 'steady: leave it there'],
] as const)('a %s level %d dB off its target: %s', (direction, offDb, way, said) => {
  expect(whichWay(going(direction), offDb, 0.2)).toBe(way);
  expect(wayWords(going(direction), way)).toBe(said);
});

it('looks for an end: down is right for the low one, and a level that rises there must turn back', () => {
  expect(whichWay(going('falling'), Number.POSITIVE_INFINITY, 0.2)).toBe('go-on');
  expect(whichWay(going('rising'), Number.POSITIVE_INFINITY, 0.2)).toBe('turn-back');
  expect(whichWay(going('rising'), Number.NEGATIVE_INFINITY, 0.2)).toBe('go-on');
});

it('waits for readings, says so without a direction, and refuses what is no number', () => {
  expect(whichWay(null, 3, 0.2)).toBe('wait');
  expect(wayWords(null, 'wait')).toBe('reading');
  expect(wayWords(null, 'leave-it')).toBe('leave it there');
  expect(whichWay(null, 0.2, 0.2)).toBe('leave-it');
  expect(() => whichWay(null, Number.NaN, 0.2)).toThrow(RangeError);
  expect(() => whichWay(null, 1, -1)).toThrow(RangeError);
});
