import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cnrFromInputDb, inputNoiseDbmv } from '../../../core/noise/cnr.ts';
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

it('refuses what is no station, and is finite otherwise', () => {
  expect(cnrFromInputDb(10, { noiseFigureDb: -1, bandwidthMhz: 4 })).toMatchObject({
    ok: false,
    code: 'out-of-range',
  });
  expect(cnrFromInputDb(10, { noiseFigureDb: 8, bandwidthMhz: 0 })).toMatchObject({
    ok: false,
    code: 'out-of-range',
  });
  expect(cnrFromInputDb(Number.NaN, station)).toMatchObject({
    ok: false,
    code: 'not-a-number',
    where: 'input level',
  });
  fc.assert(
    fc.property(anyNumber, anyNumber, anyNumber, (a, b, c) => {
      const told = cnrFromInputDb(a, { noiseFigureDb: b, bandwidthMhz: c });
      return !told.ok || Number.isFinite(told.value);
    }),
  );
});
