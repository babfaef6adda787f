import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cnrOfAlikeDb, cnrOfUnlikeDb } from '../../../core/noise/cascade.ts';
import { cnrFromInputDb } from '../../../core/noise/cnr.ts';
import worked from '../../data/published/noise-worked.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const value = (told: { ok: true; value: number } | { ok: false; help: string }): number => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};

// Hranac, "Broadband: Total Power, Part 2": 53 and 53 dB, and 55, 53, 49 dB.
it('combines unlike stations as published', () => {
  for (const { cnrsDb, cnrDb } of worked.unlike) expect(value(cnrOfUnlikeDb(cnrsDb))).toBeCloseTo(cnrDb, 2);
});

// C/N - 10 log N: cabl.com; twenty stations of +10 dBmV and NF 8: 48.2 dB. 16 return legs: 12.0 dB.
it('combines stations alike as published', () => {
  const one = value(cnrFromInputDb(10, { noiseFigureDb: 8, bandwidthMhz: 4 }));
  expect(value(cnrOfAlikeDb(one, worked.cascade20.count))).toBeCloseTo(worked.cascade20.cnrDb, 1);
  expect(60 - value(cnrOfAlikeDb(60, 16))).toBeCloseTo(worked.funnel16Db, 1);
});

it('is the same for stations alike both ways, and never better than the worst', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: 20, max: 80, noNaN: true }), { minLength: 1, maxLength: 30 }),
      (cnrsDb) => {
        const first = cnrsDb[0] ?? 0;
        const alike = value(cnrOfUnlikeDb(cnrsDb.map(() => first)));
        return (
          Math.abs(alike - value(cnrOfAlikeDb(first, cnrsDb.length))) < 1e-9 &&
          value(cnrOfUnlikeDb(cnrsDb)) <= Math.min(...cnrsDb) + 1e-9
        );
      },
    ),
  );
});

it('refuses no station, half a station and what is no ratio, and is finite otherwise', () => {
  expect(cnrOfUnlikeDb([])).toMatchObject({ ok: false });
  expect(cnrOfUnlikeDb([53, Number.NaN])).toMatchObject({
    ok: false,
    where: expect.stringContaining('station 2'),
  });
  for (const count of [0, -3, 1.5])
    expect(cnrOfAlikeDb(53, count)).toMatchObject({ ok: false, code: 'out-of-range' });
  fc.assert(
    fc.property(fc.array(anyNumber), anyNumber, (cnrsDb, count) =>
      [cnrOfUnlikeDb(cnrsDb), cnrOfAlikeDb(cnrsDb[0] ?? 0, count)].every(
        (told) => !told.ok || Number.isFinite(told.value),
      ),
    ),
  );
});
