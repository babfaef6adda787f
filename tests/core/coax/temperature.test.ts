import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  atTemperature,
  PER_DEGREE_F,
  PER_DEGREE_F_OTHER,
  REFERENCE_C,
  temperatureChangeDb,
} from '../../../core/coax/temperature.ts';
import { celsiusFromFahrenheit } from '../../../core/units.ts';
import published from '../../data/published/coax-attenuation.json' with { type: 'json' };
import { anyNumber } from '../../support/any-number.ts';

const value = (told: { ok: true; value: number } | { ok: false; help: string }): number => {
  if (!told.ok) throw new Error(told.help);
  return told.value;
};
const { temperature, gainControl } = published.worked;

it('warms 0.055 dB/ft from 68 to 100 F as published', () => {
  const warmC = celsiusFromFahrenheit(temperature.atF);
  expect(value(atTemperature(1, warmC))).toBeCloseTo(temperature.factor, 10);
  expect(value(atTemperature(temperature.dbPerFt, warmC))).toBeCloseTo(temperature.warmDbPerFt, 9);
  expect(value(atTemperature(temperature.dbPerFt * temperature.lengthFt, warmC))).toBeCloseTo(
    temperature.warmDb,
    1,
  );
});

it('cools 90 dB of cable by 100 F as published for gain control', () => {
  const change = temperatureChangeDb(
    gainControl.lossDb,
    celsiusFromFahrenheit(100),
    celsiusFromFahrenheit(0),
    PER_DEGREE_F_OTHER,
  );
  expect(value(change)).toBeCloseTo(-gainControl.changeDb, 9);
});

// Arithmetic from both published coefficients at -40, 0, 32, 100 and 120 F, percent.
it.each([
  [PER_DEGREE_F, [-11.9, -7.5, -4.0, 3.5, 5.7]],
  [PER_DEGREE_F_OTHER, [-10.8, -6.8, -3.6, 3.2, 5.2]],
] as const)('with %d a degree changes by the percents worked out beside it', (perDegreeF, percents) => {
  [-40, 0, 32, 100, 120].forEach((tF, i) => {
    expect(value(atTemperature(100, celsiusFromFahrenheit(tF), perDegreeF)) - 100).toBeCloseTo(
      percents[i] ?? Number.NaN,
      1,
    );
  });
});

it('changes nothing at the temperature of the tables', () => {
  expect(REFERENCE_C).toBe(20);
  expect(value(atTemperature(22, 20))).toBe(22);
});

it('refuses negative losses, and temperatures and coefficients that are none, and is finite otherwise', () => {
  expect(atTemperature(-1, 20)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(atTemperature(20, -300)).toMatchObject({ ok: false, code: 'out-of-range' });
  expect(atTemperature(20, 40, 0.11)).toMatchObject({ ok: false, code: 'out-of-range' });
  fc.assert(
    fc.property(anyNumber, anyNumber, anyNumber, anyNumber, (a, b, c, d) =>
      [atTemperature(a, b, c), temperatureChangeDb(a, b, c, d), atTemperature(a, b)].every(
        (told) => !told.ok || Number.isFinite(told.value),
      ),
    ),
  );
  fc.assert(
    fc.property(
      fc.double({ min: 0, max: 100, noNaN: true }),
      fc.double({ min: -90, max: 150, noNaN: true }),
      (lossDb, ambientC) => value(atTemperature(lossDb, ambientC)) >= 0,
    ),
  );
});
