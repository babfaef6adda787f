import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  celsiusFromFahrenheit,
  dbm50FromDbmv,
  dbm75FromDbmv,
  dbmvFromDbm50,
  dbmvFromDbm75,
  dbmvFromDbuv,
  dbmvFromMillivolt,
  dbmvFromWatt,
  dbuvFromDbmv,
  differenceCFromF,
  differenceFFromC,
  fahrenheitFromCelsius,
  feetFromMetres,
  type LengthUnit,
  type LevelUnit,
  lengthFrom,
  lengthIn,
  levelFrom,
  levelIn,
  metresFromFeet,
  millivoltFromDbmv,
  perDegreeCFromPerDegreeF,
  perDegreeFFromPerDegreeC,
  type TemperatureUnit,
  temperatureIn,
} from '../../core/units.ts';
import published from '../data/published/dbmv-pairs.json' with { type: 'json' };
import { anyNumber } from '../support/any-number.ts';

// Hranac, "dBmV: Voltage or Power, part 2": three pairs of power and voltage, printed to three to six digits.
describe.each(published.pairs)(
  '$millivolt mV = $milliwatt mW in 75 ohm',
  ({ milliwatt, millivolt, dbmv }) => {
    it('is the published level by voltage', () => {
      expect(dbmvFromMillivolt(millivolt)).toBeCloseTo(dbmv, 2);
      expect(millivoltFromDbmv(dbmv)).toBeCloseTo(millivolt, 3);
    });
    it('is the same level by power', () =>
      expect(dbmvFromDbm75(10 * Math.log10(milliwatt))).toBeCloseTo(dbmv, 2));
  },
);

// By definition, to the digits in common print: dBm(75) = dBmV - 48.7506, dBm(50) = dBmV - 46.9897, dBuV = dBmV + 60.
it('keeps the printed offsets between dBmV, dBm and dBuV', () => {
  expect(dbmvFromDbm75(0)).toBeCloseTo(48.7506, 4);
  expect(dbm75FromDbmv(0)).toBeCloseTo(-48.7506, 4);
  expect(dbmvFromDbm50(0)).toBeCloseTo(46.9897, 4);
  expect(dbmvFromDbuv(60)).toBe(0);
  expect(dbuvFromDbmv(0)).toBe(60);
  expect(dbm75FromDbmv(60)).toBeCloseTo(11.25, 2);
});

it('goes there and back', () => {
  for (const levelDbmv of [-40, -3.3, 0, 17.2, 60]) {
    expect(dbmvFromDbuv(dbuvFromDbmv(levelDbmv))).toBeCloseTo(levelDbmv, 12);
    expect(dbmvFromDbm75(dbm75FromDbmv(levelDbmv))).toBeCloseTo(levelDbmv, 12);
    expect(dbmvFromMillivolt(millivoltFromDbmv(levelDbmv))).toBeCloseTo(levelDbmv, 12);
  }
});

// Definitions: -40 is the same on both scales, 68 F is 20 C; a foot is 0.3048 m.
it('knows temperatures and lengths', () => {
  expect(celsiusFromFahrenheit(-40)).toBe(-40);
  expect(celsiusFromFahrenheit(68)).toBe(20);
  expect(fahrenheitFromCelsius(100)).toBe(212);
  expect(metresFromFeet(100)).toBeCloseTo(30.48, 12);
  expect(feetFromMetres(0.3048)).toBeCloseTo(1, 12);
  // 100 degrees C between ice and steam are 180 degrees F; 0.00198 a degree C is 0.0011 a degree F.
  expect(differenceFFromC(100)).toBeCloseTo(180, 12);
  expect(differenceCFromF(180)).toBeCloseTo(100, 12);
  expect(perDegreeFFromPerDegreeC(0.00198)).toBeCloseTo(0.0011, 12);
});

// By definition: 0 dBmV = 13.33 nW in 75 ohm; +60 dBmV = 13.33 mW; dBm(50) = dBmV - 46.9897; 0.0011 a degree F = 0.00198 a degree C.
it('knows watts, 50 ohm and coefficients', () => {
  expect(dbmvFromWatt(13.333e-9)).toBeCloseTo(0, 3);
  expect(dbmvFromWatt(1e-4)).toBeCloseTo(38.75, 2);
  expect(dbm50FromDbmv(0)).toBeCloseTo(-46.9897, 4);
  expect(perDegreeCFromPerDegreeF(0.0011)).toBeCloseTo(0.00198, 9);
});

const levelUnits: readonly LevelUnit[] = ['dBmV', 'dBuV', 'dBm 75 ohm', 'dBm 50 ohm', 'mV'];
const temperatureUnits: readonly TemperatureUnit[] = ['degrees C', 'degrees F'];
const lengthUnits: readonly LengthUnit[] = ['m', 'ft'];

describe('the units that a person chooses', () => {
  // +60 dBmV: 120 dBuV, +11.25 dBm in 75 ohm, 1000 mV (13.33 mW in 75 ohm), from the definitions.
  it('show one level in each', () => {
    const shown = levelUnits.map((unit) => levelIn(unit, 60));
    const expected = [60, 120, 11.2494, 13.0103, 1000];
    shown.forEach((told, i) => {
      expect(told.ok && told.value).toBeCloseTo(expected[i] ?? Number.NaN, 4);
    });
  });

  it('read back what they showed', () => {
    const sane = fc.double({ min: -120, max: 120, noNaN: true });
    fc.assert(
      fc.property(sane, fc.constantFrom(...levelUnits), (levelDbmv, unit) => {
        const shown = levelIn(unit, levelDbmv);
        const read = shown.ok ? levelFrom(unit, shown.value) : shown;
        return read.ok && Math.abs(read.value - levelDbmv) < 1e-9;
      }),
    );
    expect(lengthFrom('ft', 100)).toMatchObject({ ok: true, value: expect.closeTo(30.48, 9) });
    expect(lengthIn('ft', 30.48)).toMatchObject({ ok: true, value: expect.closeTo(100, 9) });
    expect(temperatureIn('degrees F', 100)).toEqual({ ok: true, value: 212 });
  });

  it('refuse a voltage that is none, a length below 0, a cold below all cold', () => {
    for (const millivolt of [0, -1, Number.NaN, Number.POSITIVE_INFINITY])
      expect(levelFrom('mV', millivolt)).toMatchObject({ ok: false, code: 'not-a-level' });
    expect(levelFrom('mV', -1)).toMatchObject({ where: 'level -1 mV' });
    expect(lengthFrom('ft', -1)).toMatchObject({ ok: false, code: 'not-a-length' });
    expect(temperatureIn('degrees F', -274)).toMatchObject({ ok: false, code: 'not-a-temperature' });
    expect(temperatureIn('degrees F', -273.15).ok).toBe(true);
  });

  it('answer with finite numbers or refuse', () => {
    fc.assert(
      fc.property(
        anyNumber,
        fc.constantFrom(...levelUnits),
        fc.constantFrom(...temperatureUnits),
        fc.constantFrom(...lengthUnits),
        (value, level, temperature, length) =>
          [
            levelIn(level, value),
            levelFrom(level, value),
            temperatureIn(temperature, value),
            lengthIn(length, value),
            lengthFrom(length, value),
          ].every((told) => !told.ok || Number.isFinite(told.value)),
      ),
    );
  });
});
