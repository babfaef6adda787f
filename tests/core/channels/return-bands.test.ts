import { expect, it } from 'vitest';
import { directionAt, RETURN_BANDS } from '../../../core/channels/return-bands.ts';

const band = (label: string) => {
  const found = RETURN_BANDS.find((one) => one.label === label);
  if (found === undefined) throw new Error(label);
  return found;
};

// 5 to 42 and 5 to 65: Hranac, "Band Splits"; Broadband Cable TV Access Networks, 2001. The others are from memory.
it('offers the bands and says which of them are from memory', () => {
  expect(RETURN_BANDS.map(({ lowMhz, highMhz, basis }) => [lowMhz, highMhz, basis])).toEqual([
    [5, 42, 'read'],
    [5, 65, 'read'],
    [5, 85, 'from memory'],
    [5, 204, 'from memory'],
  ]);
});

it('tells return, forward and neither apart, to the edge', () => {
  const direction = (label: string, mhz: number) => {
    const told = directionAt(band(label), mhz);
    return told.ok ? told.value : told.code;
  };
  expect([4.9, 5, 42, 42.1, 53.9, 54, 870].map((mhz) => direction('5 to 42 MHz', mhz))).toEqual([
    'neither',
    'return',
    'return',
    'neither',
    'neither',
    'forward',
    'forward',
  ]);
  expect(direction('5 to 65 MHz', 200)).toBe('neither');
  expect(direction('5 to 42 MHz', Number.NaN)).toBe('not-a-number');
  expect(direction('5 to 42 MHz', -5)).toBe('out-of-range');
});
