import { describe, expect, it } from 'vitest';
import { coherenceOf } from '../../../core/noise/coherence.ts';

// Channels 2 to 4, 7 and 8: CEA-542-C, table 1, as quoted by Hranac, "Untangling Some of the Confusion", March 2012
// (channel 2 at 55.2500, 55.2625 and 54.0027 MHz), and the comb of 6.0003 MHz of 47 CFR 76.612(a)(2).
const std = [55.25, 61.25, 67.25, 175.25, 181.25];
const irc = std.map((mhz) => mhz + 0.0125);
const hrc = [9, 10, 11, 29, 30].map((n) => n * 6.0003);

describe('analog carriers', () => {
  it('are coherent on the combs of IRC and HRC, and not on STD', () => {
    expect(coherenceOf(hrc)).toEqual({
      ...{ isCoherent: true, why: 'all 5 analog carriers stand on the comb of HRC' },
    });
    expect(coherenceOf(irc)).toMatchObject({ isCoherent: true, why: expect.stringContaining('IRC') });
    expect(coherenceOf(std)).toEqual({
      ...{ isCoherent: false, why: 'the analog carriers stand on STD, which is no comb' },
    });
  });
  it('are not when the frequencies were rounded so that IRC lies nearest by chance', () =>
    expect(coherenceOf(std.map((mhz) => Number((mhz + 0.02).toFixed(2))))).toEqual({
      ...{ isCoherent: false, why: '5 of 5 analog carriers stand off the comb of IRC' },
    }));
  // Between 118 and 137 and from 225 MHz STD has the offset of 12.5 kHz that IRC has everywhere: 76.612(a)(1).
  it('are not where STD fits as well', () =>
    expect(coherenceOf([121.2625, 127.2625, 229.2625])).toEqual({
      ...{ isCoherent: false, why: 'STD and IRC fit the analog carriers alike' },
    }));
  it('are not when there are fewer than two, or on no plan', () => {
    expect(coherenceOf([])).toMatchObject({ isCoherent: false });
    expect(coherenceOf([54.0027])).toMatchObject({ isCoherent: false });
    expect(coherenceOf([1.11, 2.22])).toEqual({
      ...{ isCoherent: false, why: 'the analog carriers stand on no channel plan' },
    });
  });
});
