import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { installedOf } from '../../../core/files/station.ts';
import { stationNoise } from '../../../core/noise/station-noise.ts';
import { quillmere } from '../../../core/simulate/quillmere.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';
import { notFinite } from '../../support/not-finite.ts';

const station = quillmere.find((one) => one.station.id === 'qm4-03-ropewalk')?.station;
if (station === undefined) throw new Error('no station');
const pluggedIn = Object.fromEntries(Object.keys(installedOf(station)).map((name) => [name, 0]));
const flat = (levelDbmv: number) =>
  Array.from({ length: 20 }, (_, i) => ({ frequencyMhz: 54 + 43 * i, levelDbmv }));
const { inputDbmv, noiseFigureDb, cnrDb } = worked.oneStation;

describe('the noise of a station', () => {
  // cabl.com "CATV Formulas" with k T B: +10 dBmV in, noise figure 8: 61.2 dB.
  it('is that of the published example', () => {
    const stands = { station, pluggedIn, outputRows: null, inputRows: flat(inputDbmv) };
    const told = stationNoise(stands, { noiseFigureDb }, 4);
    if (!told.ok || !('lowDb' in told.value.cnr)) throw new Error('not told');
    expect(told.value.cnr.lowDb).toBeCloseTo(cnrDb, 1);
    expect(told.value.cnr.highDb).toBeCloseTo(cnrDb, 1);
    expect(told.value.cnr.thermalDbmv).toBeCloseTo(-59.204, 3);
    expect(told.value).toMatchObject({ aboveRatingDb: null, distortions: [] });
  });
  it('is told without an input level too, which then says what is missing', () => {
    const told = stationNoise(
      { station, pluggedIn, outputRows: null, inputRows: null },
      { noiseFigureDb: 8, ratedAtDbmv: 46, ctbDbc: -70 },
      4,
    );
    expect(told).toMatchObject({
      ...{ ok: true, value: { cnr: { ok: false, code: 'no-input-level' }, aboveRatingDb: 0 } },
    });
  });
  // cabl.com: 2 dB a dB of output for CTB and XMOD; 1 dB a dB for CSO from memory. 3 dB above the rating.
  it('and its distortion at the level that it puts out', () => {
    const rows = Array.from({ length: 69 }, (_, i) => ({
      frequencyMhz: 54 + 12 * i,
      levelDbmv: 39 + (10 * i) / 68,
    }));
    const rated = { noiseFigureDb: 8, ratedAtDbmv: 46, ctbDbc: -70, csoDbc: -66, xmodDbc: -68 };
    const told = stationNoise({ station, pluggedIn, outputRows: rows, inputRows: null }, rated, 4);
    if (!told.ok) throw new Error(told.help);
    expect(told.value.aboveRatingDb).toBeCloseTo(3, 9);
    expect(
      told.value.distortions.map(({ kind, valueDbc }) => [kind, Math.round(valueDbc * 1e6) / 1e6]),
    ).toEqual([
      ...[
        ['ctb', -64],
        ['cso', -63],
        ['xmod', -62],
      ],
    ]);
  });
  it('lets no NaN out', () => {
    fc.assert(
      fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (level, noise, ratedAtDbmv, ctbDbc) => {
        const stands = { station, pluggedIn, outputRows: flat(level), inputRows: flat(level) };
        expect(notFinite(stationNoise(stands, { noiseFigureDb: noise, ratedAtDbmv, ctbDbc }, 4))).toEqual([]);
      }),
    );
  });
});
