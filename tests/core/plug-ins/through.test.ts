import { expect, it } from 'vitest';
import type { Position } from '../../../core/files/station.ts';
import { throughLossDb } from '../../../core/plug-ins/through.ts';

const positions: Position[] = [
  { name: 'pad', kind: 'pad', installed: 6, values: [0, 6] },
  { name: 'equalizer', kind: 'equalizer', topMhz: 870, insertionLossDb: 1, installed: 8, values: [0, 8] },
];

it('adds the losses of the positions on the path, and of no others', () => {
  const pluggedIn = { pad: 6, equalizer: 8 };
  expect(throughLossDb({ positions }, ['pad', 'equalizer'], pluggedIn, 217.5)).toBe(11);
  expect(throughLossDb({ positions }, ['pad'], pluggedIn, 217.5)).toBe(6);
  expect(throughLossDb({ positions }, [], pluggedIn, 217.5)).toBe(0);
  expect(throughLossDb({ positions }, ['pad', 'pad'], pluggedIn, 217.5)).toBe(12);
});
it('throws for a position that is not there, or holds nothing known', () => {
  expect(() => throughLossDb({ positions }, ['trim'], { trim: 1 }, 100)).toThrow(RangeError);
  expect(() => throughLossDb({ positions }, ['pad'], {}, 100)).toThrow(RangeError);
});
