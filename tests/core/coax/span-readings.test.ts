import { expect, it } from 'vitest';
import { spanReadings } from '../../../core/coax/span-readings.ts';
import { station } from '../propose/mill-lane.ts';

const design = station.ports[0]?.design;
if (design === undefined) throw new Error('no design');
const rows = (levelDbmv: number, some = [57, 63, 69, 75, 81, 87]) =>
  some.map((frequencyMhz) => ({ frequencyMhz, levelDbmv }));

it('pairs the carriers that both ends have, in rising frequency', () => {
  const received = rows(20, [87, 63.02, 57, 69, 75, 300]);
  const readings = spanReadings(received, { from: 'sweep', rows: rows(40) }, null);
  expect(readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual([57, 63.02, 69, 75, 87]);
  for (const { sentDbmv, receivedDbmv } of readings) expect([sentDbmv, receivedDbmv]).toEqual([40, 20]);
});

it('leaves out what is no carrier at one end', () => {
  const received = rows(20).map((row) => (row.frequencyMhz === 69 ? { ...row, levelDbmv: -30 } : row));
  const readings = spanReadings(received, { from: 'sweep', rows: rows(40) }, null);
  expect(readings.map(({ frequencyMhz }) => frequencyMhz)).not.toContain(69);
});

// Contract, section 2: 36 dBmV at 54 and 46 at 870 MHz, straight in f.
it('takes the design line where the other end was not read', () => {
  const [first] = spanReadings(rows(20), { from: 'design', design }, null);
  expect(first?.sentDbmv).toBeCloseTo(36 + (10 * 3) / 816, 9);
});

it('moves QAM that is carried lower onto the line of the others at both ends', () => {
  const lineUp = [57, 63, 69, 75, 81, 87].map((frequencyMhz, i) => ({
    ...{ channelLabel: `${i}`, frequencyMhz, kind: 'qam' as const, qamOrder: 256, widthMhz: 6, offsetDb: -6 },
  }));
  const [first] = spanReadings(rows(14), { from: 'design', design }, lineUp);
  expect(first?.receivedDbmv).toBe(20);
});
