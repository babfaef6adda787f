import { MIDDLE_C } from '../../core/gain-control/span-offset.ts';
import { differenceFFromC, fahrenheitFromCelsius, perDegreeFFromPerDegreeC } from '../../core/units.ts';
import type { TemperatureUnit } from '../format.ts';

/** "15 °C", "27 °F": by how much warmer, where 0 stays 0. */
export const degrees = (differenceC: number, unit: TemperatureUnit): string =>
  `${Math.round(unit === 'C' ? differenceC : differenceFFromC(differenceC))}\u00A0\u00B0${unit}`;

/** "0.0020 a °C", "0.0011 a °F": what changes with each degree. */
export const aDegree = (perDegreeC: number, unit: TemperatureUnit, digits = 5): string =>
  `${Number((unit === 'C' ? perDegreeC : perDegreeFFromPerDegreeC(perDegreeC)).toFixed(digits))} a\u00A0\u00B0${unit}`;

/** "15.6 °C", "60 °F": where the rule of the ambient compensation has its middle; rounded to whole degrees it would be another. */
export const middleWords = (unit: TemperatureUnit): string =>
  `${unit === 'C' ? MIDDLE_C : Math.round(fahrenheitFromCelsius(MIDDLE_C))}\u00A0\u00B0${unit}`;
