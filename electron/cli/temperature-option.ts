import { InvalidArgumentError } from 'commander';
import { fahrenheitFromCelsius } from '../../core/units.ts';
import type { TemperatureUnit } from '../../core/words/numbers.ts';

/** `command.option(...temperatureOption)`: the text alone is said in it; options and JSON are degrees C, always. */
export const temperatureOption = [
  '--unit-temp <c|f>',
  'what the text says temperatures in; options and JSON are always degrees C',
  (word: string): TemperatureUnit => {
    const unit = word.toUpperCase();
    if (unit !== 'C' && unit !== 'F') throw new InvalidArgumentError('a unit of temperature is c or f');
    return unit;
  },
] as const;

export type TemperatureOption = Readonly<{ unitTemp?: TemperatureUnit }>;

/** "12.5 °C", "54.5 °F": no more than one decimal, and none that is nought. */
export const temperatureCell = (temperatureC: number, unit: TemperatureUnit = 'C'): string =>
  `${Number((unit === 'C' ? temperatureC : fahrenheitFromCelsius(temperatureC)).toFixed(1))} °${unit}`;
