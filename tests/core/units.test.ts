import { describe, expect, it } from 'vitest';
import {
  celsiusFromFahrenheit,
  dbm75FromDbmv,
  dbmvFromDbm50,
  dbmvFromDbm75,
  dbmvFromDbuv,
  dbmvFromMillivolt,
  dbuvFromDbmv,
  fahrenheitFromCelsius,
  feetFromMetres,
  metresFromFeet,
  millivoltFromDbmv,
} from '../../core/units.ts';
import published from '../data/published/dbmv-pairs.json' with { type: 'json' };

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
});
