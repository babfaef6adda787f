import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel, bareMhz, signedDb } from '../format.ts';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';
import type { SeasonPoint } from './SeasonPicture.tsx';

/** "\u221230", "7.5": a temperature at an axis, without its unit. */
export const temperatureWords = (at: number): string => bareMhz(at).replace('-', '\u2212');

/** Everything that is computed for one temperature. */
export const seasonValues = (
  { highDbmv, lowDbmv, controlDb, highOffDb, lowOffDb }: SeasonPoint,
  names: Readonly<{ high: string; low: string }>,
  unit: LevelUnitName,
): readonly CrossLine[] => [
  { key: 'high', name: names.high, text: bareLevel(highDbmv, unit) },
  { key: 'high off', name: 'from design', text: signedDb(highOffDb) },
  { key: 'low', name: names.low, text: bareLevel(lowDbmv, unit) },
  { key: 'low off', name: 'from design', text: signedDb(lowOffDb) },
  { key: 'control', name: 'control', text: signedDb(controlDb) },
];

/** The year for a spreadsheet: degrees C of the cable, levels in dBmV, the control in dB. */
export const seasonCsv = (points: readonly SeasonPoint[]): string =>
  csvOf(
    ['cable_c', 'high_dbmv', 'low_dbmv', 'high_from_design_db', 'low_from_design_db', 'control_db'],
    points.map((one) =>
      [one.cableC, one.highDbmv, one.lowDbmv, one.highOffDb, one.lowOffDb, one.controlDb].map(digits),
    ),
  );
