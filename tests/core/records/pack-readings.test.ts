import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type KeptReading,
  packReadings,
  unpackFrequencies,
  unpackLevels,
  unpackReadings,
} from '../../../core/records/pack-readings.ts';

const unpacked = (readings: readonly KeptReading[]) => {
  const { frequencies, body } = packReadings(readings);
  return unpackReadings(unpackFrequencies(frequencies), body);
};

/** Everything that the archive's own table takes. */
const reading = fc.record({
  frequencyHz: fc.integer({ min: 1, max: 1_000_000_000_000 }),
  meterMdbmv: fc.option(fc.integer({ min: -1_000_000, max: 1_000_000 }), { nil: null }),
  kind: fc.constantFrom('analog', 'qam', 'ofdm', 'cw', null),
  takenAtMs: fc.integer({ min: 0, max: 253_402_300_799_999 }),
});

describe('packed readings', () => {
  it('are the readings again, exactly, whatever they are', () => {
    fc.assert(
      fc.property(fc.array(reading, { maxLength: 200 }), (readings) => {
        expect(unpacked(readings)).toEqual(readings);
      }),
    );
  });

  it('are the same levels and kinds where the times are not asked for', () => {
    fc.assert(
      fc.property(fc.array(reading, { maxLength: 200 }), (readings) => {
        const { frequencies, body } = packReadings(readings);
        expect(unpackLevels(unpackFrequencies(frequencies), body)).toEqual({
          meterMdbmv: readings.map(({ meterMdbmv }) => meterMdbmv),
          kindOf: readings.map(({ kind }) => kind),
        });
      }),
    );
  });

  it('are the readings again at every resolution of a meter and every pace', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -900, max: 900 }), { minLength: 1, maxLength: 160 }),
        fc.constantFrom(1, 10, 100, 500),
        fc.integer({ min: -50, max: 50 }),
        (levels, stepMdb, paceMs) => {
          const readings = levels.map((level, i) => ({
            frequencyHz: 54_000_000 + i * 6_000_000,
            meterMdbmv: level === 0 ? 0 : level * stepMdb,
            kind: null,
            takenAtMs: 1_772_438_400_000 + i * paceMs,
          }));
          expect(unpacked(readings)).toEqual(readings);
        },
      ),
    );
  });

  it('give equal bytes for equal readings, and other bytes for others', () => {
    fc.assert(
      fc.property(fc.array(reading, { minLength: 1, maxLength: 20 }), fc.nat(), (readings, which) => {
        const one = packReadings(readings);
        expect(packReadings(readings.map((each) => ({ ...each })))).toEqual(one);
        const at = which % readings.length;
        const changed = readings.map((each, i) =>
          i === at ? { ...each, takenAtMs: each.takenAtMs + 1 } : each,
        );
        expect(packReadings(changed).body).not.toEqual(one.body);
      }),
    );
  });

  it('take little more than one byte a channel, where a list of frequencies is shared', () => {
    // A line with a slope and a bit of noise, in tenths, as a meter tells it; about 20 ms a reading.
    const readings = Array.from({ length: 158 }, (_, i) => ({
      frequencyHz: 54_000_000 + i * 6_000_000,
      meterMdbmv: Math.round(160 + i * 0.6 + 8 * Math.sin(i * 7)) * 100,
      kind: i < 20 ? ('analog' as const) : ('qam' as const),
      takenAtMs: 1_772_438_400_000 + i * 20 + (i % 3),
    }));
    expect(packReadings(readings).body.length).toBeLessThan(158 * 1.3);
  });

  it('refuse damaged bytes, or give other readings, but never fall over', () => {
    const readings = Array.from({ length: 12 }, (_, i) => ({
      frequencyHz: 54_000_000 + i,
      meterMdbmv: i % 5 === 0 ? null : i * 1000,
      kind: i < 6 ? ('qam' as const) : null,
      takenAtMs: 1_772_438_400_000 + i * i,
    }));
    const { frequencies, body } = packReadings(readings);
    const listHz = unpackFrequencies(frequencies);
    for (let at = 0; at < body.length; at += 1) {
      expect(() => unpackReadings(listHz, body.slice(0, at))).toThrow(RangeError);
      for (let bit = 0; bit < 8; bit += 1) {
        const bent = body.slice();
        bent[at] = (bent[at] ?? 0) ^ (1 << bit);
        try {
          expect(unpackReadings(listHz, bent)).not.toEqual(readings);
        } catch (fault) {
          if (!(fault instanceof RangeError)) throw fault;
        }
      }
    }
    for (let at = 0; at < frequencies.length; at += 1)
      expect(() => unpackFrequencies(frequencies.slice(0, at))).toThrow(RangeError);
    expect(() => unpackReadings(listHz, Uint8Array.from([...body, 0]))).toThrow(/after their end/);
    expect(() => unpackReadings(listHz.slice(1), body)).toThrow(RangeError);
    expect(() => unpackFrequencies(Uint8Array.from([2, 0]))).toThrow(/unknown form 2/);
  });

  it('refuse a number that is not whole', () => {
    const one = { frequencyHz: 54e6, meterMdbmv: 1, kind: null, takenAtMs: 0 } as const;
    for (const wrong of [
      { meterMdbmv: 0.5 },
      { meterMdbmv: Number.NaN },
      { frequencyHz: 0.1 },
      { takenAtMs: 0.1 },
    ])
      expect(() => packReadings([{ ...one, ...wrong }])).toThrow(RangeError);
  });
});
