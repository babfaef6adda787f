import { expect, it } from 'vitest';
import { bandOf, readPlans } from '../../../renderer/state/read-plans.ts';
import { station } from '../sheet-records.ts';

it('reads the raster of the design, 136 channels every 6 MHz and 102 every 8 MHz', () => {
  const plans = readPlans(bandOf(station, 'forward output'), null);
  expect(plans.map(({ key, frequenciesMhz }) => [key, frequenciesMhz.length])).toEqual([
    ['every-6', 136],
    ['every-8', 102],
  ]);
});

it('gives a port without a design the band of its direction, and the channels of its last sweep', () => {
  const band = bandOf(station, 'forward input');
  expect(band?.highMhz).toBe(870);
  const plans = readPlans(band, [
    { frequencyMhz: 111, levelDbmv: 3 },
    { frequencyMhz: null, levelDbmv: 3 },
  ]);
  expect(plans.at(-1)).toMatchObject({ key: 'as-last', frequenciesMhz: [111] });
});

it('reads a narrow band every MHz first, and without a band only what was read before', () => {
  const design = station.ports[0]?.design;
  if (design === undefined) throw new Error('the test station has a design');
  expect(readPlans({ ...design, lowMhz: 5, highMhz: 42 }, null)[0]).toMatchObject({ key: 'every-1' });
  expect(readPlans(null, null)).toEqual([]);
  expect(bandOf(station, 'nowhere')).toBeNull();
});

// 5 to 42 MHz: Hranac, "Band Splits"; 5 to 65 MHz: Broadband Cable TV Access Networks, 2001. The others are from memory.
it('offers the usual return bands to a return port that has no design', () => {
  const plans = readPlans(null, null, 'return');
  expect(plans.map(({ title }) => title.replace('\u00A0', ' '))).toEqual([
    ...['5 to 42 MHz', '5 to 65 MHz', '5 to 85 MHz', '5 to 204 MHz'],
  ]);
  expect(plans[0]?.frequenciesMhz).toHaveLength(37);
  expect([plans[0]?.frequenciesMhz[0], plans[0]?.frequenciesMhz.at(-1)]).toEqual([5.5, 41.5]);
});
