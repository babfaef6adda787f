import { mhz as mhzWords, sizeDb } from '../format.ts';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';
import type { SpanCurve } from './SpanPicture.tsx';

/** What a span takes at one frequency, dB: computed for three days, and measured where a sweep tells it. */
export type SpanRow = Readonly<{
  mhz: number;
  cold: number | null;
  now: number | null;
  hot: number | null;
  measured: number | null;
}>;

/** One row a frequency, in rising order. */
export function spanRows(
  curves: readonly SpanCurve[],
  measured: readonly (readonly [mhz: number, lossDb: number])[],
): readonly SpanRow[] {
  const at = new Map(curves.map(({ key, points }) => [key, new Map(points)]));
  const read = new Map(measured);
  const frequencies = new Set([
    ...curves.flatMap(({ points }) => points.map(([mhz]) => mhz)),
    ...read.keys(),
  ]);
  return [...frequencies]
    .sort((a, b) => a - b)
    .map((mhz) => ({
      mhz,
      cold: at.get('cold')?.get(mhz) ?? null,
      now: at.get('now')?.get(mhz) ?? null,
      hot: at.get('hot')?.get(mhz) ?? null,
      measured: read.get(mhz) ?? null,
    }));
}

/** Everything that is known at one frequency. */
export const spanValues = (row: SpanRow, curves: readonly SpanCurve[]): readonly CrossLine[] => [
  ...curves.flatMap(({ key, words }): CrossLine[] => {
    const lossDb = row[key];
    return lossDb === null ? [] : [{ key, name: words, text: sizeDb(lossDb) }];
  }),
  ...(row.measured === null ? [] : [{ key: 'measured', name: 'measured', text: sizeDb(row.measured) }]),
];

/** The same as one line, for whoever listens. */
export const spanRowWords = (row: SpanRow, curves: readonly SpanCurve[]): string =>
  [mhzWords(row.mhz), ...spanValues(row, curves).map(({ name, text }) => `${name}, ${text}`)].join('; ');

/** The span for a spreadsheet: MHz, and dB lost. */
export const spanCsv = (rows: readonly SpanRow[]): string =>
  csvOf(
    ['frequency_mhz', 'cold_db', 'now_db', 'hot_db', 'measured_db'],
    rows.map(({ mhz, cold, now, hot, measured }) => [mhz, cold, now, hot, measured].map(digits)),
  );
