import { differenceFFromC, perDegreeFFromPerDegreeC } from '../../core/units.ts';
import type { TemperatureUnit } from '../format.ts';

/** "15 °C", "27 °F": by how much warmer, where 0 stays 0. */
export const degrees = (differenceC: number, unit: TemperatureUnit): string =>
  `${Math.round(unit === 'C' ? differenceC : differenceFFromC(differenceC))}\u00A0\u00B0${unit}`;

/** "0.0020 a °C", "0.0011 a °F": what changes with each degree. */
export const aDegree = (perDegreeC: number, unit: TemperatureUnit, digits = 5): string =>
  `${Number((unit === 'C' ? perDegreeC : perDegreeFFromPerDegreeC(perDegreeC)).toFixed(digits))} a\u00A0\u00B0${unit}`;
