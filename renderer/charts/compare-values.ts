import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import type { ComparedRow } from '../../core/drift/compare-sweeps.ts';
import { bareLevel, mhz as mhzWords, signedDb } from '../format.ts';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';

/** What both sweeps are called, the earlier first: "3 March 2025". */
export type TwoDays = readonly [earlier: string, later: string];

/** Everything that is known of one channel. */
export function compareLines(
  row: ComparedRow,
  [earlier, later]: TwoDays,
  unit: LevelUnitName,
): readonly CrossLine[] {
  const line = (key: string, name: string, text: string | null): CrossLine[] =>
    text === null ? [] : [{ key, name, text }];
  const level = (dbmv: number | null) => (dbmv === null ? null : bareLevel(dbmv, unit));
  const size = (db: number | null) => (db === null ? null : signedDb(db));
  return [
    ...line('difference', 'difference', size(row.differenceDb)),
    ...line('weather', 'by the weather', size(row.weatherDb)),
    ...line('later', later, level(row.laterDbmv)),
    ...line('earlier', earlier, level(row.earlierDbmv)),
  ];
}

/** The same as one line, for whoever listens. */
export const compareWords = (row: ComparedRow, lines: readonly CrossLine[]): string =>
  [mhzWords(row.frequencyMhz), ...lines.map(({ name, text }) => `${name} ${text}`)].join('; ');

/** The two sweeps for a spreadsheet: MHz, dBmV and dB. */
export const compareCsv = (rows: readonly ComparedRow[]): string =>
  csvOf(
    ['frequency_mhz', 'earlier_dbmv', 'later_dbmv', 'difference_db', 'by_the_weather_db'],
    rows.map(({ frequencyMhz, earlierDbmv, laterDbmv, differenceDb, weatherDb }) =>
      [frequencyMhz, earlierDbmv, laterDbmv, differenceDb, weatherDb].map(digits),
    ),
  );
