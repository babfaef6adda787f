import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  checkedLineUp,
  type LineUpEntry,
  occupiedBand,
  offsetOf,
  usualOffset,
} from '../../../core/channels/line-up.ts';
import { anyNumber } from '../../support/any-number.ts';

const analog: LineUpEntry = {
  channelLabel: '2',
  frequencyMhz: 55.25,
  kind: 'analog',
  widthMhz: 6,
  offsetDb: 0,
};
const qam: LineUpEntry = {
  channelLabel: '3',
  frequencyMhz: 63,
  kind: 'qam',
  qamOrder: 256,
  widthMhz: 6,
  offsetDb: -6,
};
const ofdm: LineUpEntry = {
  channelLabel: 'OFDM',
  frequencyMhz: 762,
  kind: 'ofdm',
  widthMhz: 192,
  offsetDb: -6,
};
const pilot: LineUpEntry = { channelLabel: 'pilot', frequencyMhz: 74, kind: 'cw', widthMhz: 0, offsetDb: 0 };

// docsis.org forum "qam64-vs-qam256" (secondary): -10 and -5 to -6 dBc; OFDM from memory; the others by definition.
it('offers the usual offsets, each with its basis, and none for a QAM order it has no word on', () => {
  const offset = (...args: Parameters<typeof usualOffset>) => {
    const usual = usualOffset(...args);
    return usual.ok ? usual.value.offsetDb : usual.code;
  };
  expect([offset('analog'), offset('qam', 256), offset('qam', 64), offset('ofdm'), offset('cw')]).toEqual([
    0, -6, -10, -6, 0,
  ]);
  expect(offset('qam', 128)).toBe('no-usual-offset');
  expect(offset('qam')).toBe('no-usual-offset');
  expect(usualOffset('ofdm')).toMatchObject({ value: { basis: expect.stringContaining('from memory') } });
});

it('takes the offset that a person typed, whatever is usual', () => {
  expect(offsetOf({ ...qam, offsetDb: -7.5 })).toEqual({ ok: true, value: -7.5 });
});

describe('a line-up', () => {
  // 54 to 60 MHz for channel 2: repairfaq.org "tvnocbfreq", visual - 1.25 to visual + 4.75 MHz.
  it('knows the spectrum that each kind takes', () => {
    expect(occupiedBand(analog)).toMatchObject({ value: { lowMhz: 54, highMhz: 60 } });
    expect(occupiedBand(qam)).toMatchObject({ value: { lowMhz: 60, highMhz: 66 } });
    expect(occupiedBand(ofdm)).toMatchObject({ value: { lowMhz: 666, highMhz: 858 } });
    expect(occupiedBand(pilot)).toMatchObject({ value: { lowMhz: 74, highMhz: 74 } });
  });

  it('is put in order of frequency', () => {
    const checked = checkedLineUp([ofdm, pilot, qam, analog]);
    expect(checked.ok && checked.value.map((entry) => entry.channelLabel)).toEqual([
      '2',
      '3',
      'pilot',
      'OFDM',
    ]);
  });

  it('is refused where two want one place, also far apart in the list', () => {
    const inside = { ...qam, channelLabel: '120', frequencyMhz: 771 };
    const after = { ...qam, channelLabel: '118', frequencyMhz: 759 };
    expect(checkedLineUp([analog, ofdm, after, inside])).toMatchObject({
      ok: false,
      code: 'overlap',
      where: 'channels OFDM and 118',
    });
    expect(checkedLineUp([pilot, { ...pilot, channelLabel: 'again' }])).toMatchObject({
      ok: false,
      code: 'overlap',
    });
  });

  it('lets neighbours be whose carriers are moved by the offsets of 47 CFR 76.612', () => {
    const moved = { ...analog, channelLabel: '14', frequencyMhz: 121.2625 };
    expect(checkedLineUp([moved, { ...qam, channelLabel: '15', frequencyMhz: 129 }]).ok).toBe(true);
  });

  it('refuses widths and frequencies that make no sense, with the channel named', () => {
    expect(offsetOf({ ...qam, widthMhz: 0 })).toMatchObject({
      ok: false,
      where: expect.stringContaining('channel 3'),
    });
    expect(offsetOf({ ...qam, widthMhz: 200 })).toMatchObject({ ok: false, code: 'out-of-range' });
    expect(checkedLineUp([{ ...qam, offsetDb: Number.NaN }])).toMatchObject({
      ok: false,
      code: 'not-a-number',
    });
  });
});

it('is finite or refused, whatever the numbers', () => {
  const number = anyNumber;
  fc.assert(
    fc.property(
      number,
      number,
      number,
      fc.constantFrom('analog', 'qam', 'ofdm', 'cw'),
      (frequencyMhz, widthMhz, offsetDb, kind) => {
        const entry: LineUpEntry = { channelLabel: 'x', frequencyMhz, widthMhz, offsetDb, kind };
        const offset = offsetOf(entry);
        const band = occupiedBand(entry);
        return (
          (!offset.ok || Number.isFinite(offset.value)) &&
          (!band.ok || (Number.isFinite(band.value.lowMhz) && band.value.highMhz >= band.value.lowMhz))
        );
      },
    ),
  );
});
