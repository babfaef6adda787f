import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cnrFromInputDb, cnrFromOutputDb, inputNoiseDbmv } from '../../../core/noise/cnr.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const value = (told: { ok: true; value: number } | { ok: false; help: string }): number => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const { inputDbmv, noiseFigureDb, bandwidthMhz, cnrDb, cnrWithMinus59Db } = worked.oneStation;
const station = { noiseFigureDb, bandwidthMhz };

// C/N = input - (-59 + NF): cabl.com; +10 dBmV and NF 8: 61.0 with the rounded -59, 61.2 with k T B.
it('gives the worked station from its input', () => {
  expect(value(cnrFromInputDb(inputDbmv, station))).toBeCloseTo(cnrDb, 1);
  expect(value(inputNoiseDbmv(station))).toBeCloseTo(-51.2, 1);
  expect(Math.abs(value(cnrFromInputDb(inputDbmv, station)) - cnrWithMinus59Db)).toBeLessThan(0.25);
});

// C/N = output - (-59 + NF + G): cabl.com.
it('gives the same from its output and gain', () => {
  expect(value(cnrFromOutputDb(inputDbmv + 32, 32, station))).toBeCloseTo(
    value(cnrFromInputDb(inputDbmv, station)),
    9,
  );
});

it('refuses what is no station, and is finite otherwise', () => {
  expect(cnrFromInputDb(10, { noiseFigureDb: -1, bandwidthMhz: 4 })).toMatchObject({
    ok: false,
    code: 'out-of-range',
  });
  expect(cnrFromInputDb(10, { noiseFigureDb: 8, bandwidthMhz: 0 })).toMatchObject({
    ok: false,
    code: 'out-of-range',
  });
  expect(cnrFromOutputDb(42, Number.NaN, station)).toMatchObject({
    ok: false,
    code: 'not-a-number',
    where: 'gain',
  });
  fc.assert(
    fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) =>
      [
        cnrFromInputDb(a, { noiseFigureDb: b, bandwidthMhz: c }),
        cnrFromOutputDb(a, d, { noiseFigureDb: b, bandwidthMhz: c }),
      ].every((told) => !told.ok || Number.isFinite(told.value)),
    ),
  );
});
