import { expect, it } from 'vitest';
import type { FoundPort } from '../../../core/bridge/records.ts';
import { adapterName, placesOf } from '../../../electron/backend/meters/adapters.ts';

const port = (path: string, adapter?: string): FoundPort => ({
  path,
  label: 'adapter',
  likely: true,
  ...(adapter === undefined ? {} : { adapter }),
});
const whole = (...ports: FoundPort[]) => ({ ports, problem: null });
const [A, B] = ['0403:6001:a17', '0403:6001:b99'];

it.each([
  ['A17', A],
  [' a17\n', A],
  ['Harbour 17/b', '0403:6001:harbour_17_b'],
  ['Harbour_17_b', '0403:6001:harbour_17_b'],
  ['', null],
  ['   ', null],
  [undefined, null],
])('names an adapter by its serial number, written as the system writes it: %j', (serial, name) => {
  expect(adapterName('0403', '6001', serial)).toBe(name);
});

it('has no name for an adapter whose maker nobody tells', () => {
  expect(adapterName(undefined, '6001', 'A17')).toBeNull();
});

it('looks where the adapter is now, not where its old name points', () => {
  const swapped = whole(port('/dev/ttyUSB0', B), port('/dev/ttyUSB1', A));
  expect(placesOf(A, '/dev/ttyUSB0', swapped)).toEqual(['/dev/ttyUSB1']);
});

it('stays at the port of an adapter with several, and tries its others where the old one is gone', () => {
  const four = ['0', '1', '2', '3'].map((at) => port(`/dev/ttyUSB${at}`, A));
  expect(placesOf(A, '/dev/ttyUSB2', whole(...four))[0]).toBe('/dev/ttyUSB2');
  expect(placesOf(A, '/dev/ttyUSB7', whole(...four))).toEqual(four.map(({ path }) => path));
});

it('tells an adapter that is not plugged in from a list that may be incomplete', () => {
  expect(placesOf(A, '/dev/ttyUSB0', whole(port('/dev/ttyUSB0', B)))).toEqual([]);
  const failed = { ports: [], problem: 'the list hung' };
  expect(placesOf(A, '/dev/ttyUSB0', failed)).toEqual(['/dev/ttyUSB0']);
  const fromKernel = { ports: [port('/dev/ttyUSB1', A)], problem: 'the list hung' };
  expect(placesOf(A, '/dev/ttyUSB0', fromKernel)).toEqual(['/dev/ttyUSB1']);
});

it('takes a port without a name of an adapter for what its path says', () => {
  expect(placesOf(null, '/dev/pts/3', whole(port('/dev/ttyUSB0', A)))).toEqual(['/dev/pts/3']);
});
