import { expect, it } from 'vitest';
import type { Position } from '../../../core/files/station.ts';
import type { Truck } from '../../../core/files/truck.ts';
import { countIn, kitOf, truckAfter } from '../../../core/files/truck-moves.ts';

// Common practice, no published source: a part is in the truck or in a station, never in both.
const pad: Position = { name: 'input pad', kind: 'pad', installed: 6, values: [0, 1, 2] };
const forward: Position = {
  name: 'input equalizer',
  kind: 'equalizer',
  topMhz: 870,
  insertionLossDb: 1,
  installed: 8,
  values: [4, 6],
};
const reverse: Position = { ...forward, name: 'return equalizer', topMhz: 42 };
const truck: Truck = {
  format: 'tiltwright-truck/1',
  parts: [
    { kind: 'equalizer', topMhz: 870, valueDb: 6, count: 1, toleranceDb: 0.3 },
    { kind: 'pad', valueDb: 2, count: 3 },
  ],
};

it('takes what went in out of the truck, and puts what came out into it', () => {
  const after = truckAfter(truck, [
    { position: pad, from: 6, to: 2 },
    { position: forward, from: 8, to: 6 },
  ]);
  expect(after.parts).toEqual([
    { kind: 'pad', valueDb: 2, count: 2 },
    { kind: 'pad', valueDb: 6, count: 1 },
    { kind: 'equalizer', topMhz: 870, valueDb: 6, count: 0, toleranceDb: 0.3 },
    { kind: 'equalizer', topMhz: 870, valueDb: 8, count: 1 },
  ]);
  // The number of parts in the world stays the same: two went out, two came in.
  const sum = (of: Truck) => of.parts.reduce((all, { count }) => all + count, 0);
  expect(sum(after)).toBe(sum(truck));
});

it('keeps an equalizer for another top frequency apart', () => {
  expect(countIn(truck, forward, 6)).toBe(1);
  expect(countIn(truck, reverse, 6)).toBe(0);
  const after = truckAfter(truck, [{ position: reverse, from: 6, to: 4 }]);
  expect(countIn(after, forward, 6)).toBe(1);
  expect(countIn(after, reverse, 6)).toBe(1);
});

it('leaves a count at nothing when the part came from elsewhere', () => {
  const after = truckAfter(truck, [{ position: pad, from: 2, to: 1 }]);
  expect(countIn(after, pad, 1)).toBe(0);
  expect(countIn(after, pad, 2)).toBe(4);
});

it('lets a part go from one position into another', () => {
  const swap = [
    { position: pad, from: 2, to: 7 },
    { position: { ...pad, name: 'interstage pad' }, from: 7, to: 2 },
  ];
  const empty: Truck = { ...truck, parts: [] };
  const after = truckAfter(empty, swap);
  expect([countIn(after, pad, 2), countIn(after, pad, 7)]).toEqual([0, 0]);
});

it('changes nothing in the truck that was given, and throws for a position that can not be', () => {
  const before = structuredClone(truck);
  truckAfter(truck, [{ position: pad, from: 6, to: 2 }]);
  expect(truck).toEqual(before);
  expect(() => truckAfter(truck, [{ position: { kind: 'equalizer' }, from: 1, to: 2 }])).toThrow(RangeError);
});

it('lists every value that some station takes, each kind and top frequency by itself', () => {
  expect(kitOf([reverse, pad, forward, { ...pad, name: 'other', values: [12, 1], installed: 0 }])).toEqual([
    { kind: 'pad', topMhz: null, valuesDb: [0, 1, 2, 6, 12] },
    { kind: 'equalizer', topMhz: 42, valuesDb: [4, 6, 8] },
    { kind: 'equalizer', topMhz: 870, valuesDb: [4, 6, 8] },
  ]);
});
