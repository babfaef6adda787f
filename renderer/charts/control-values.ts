import { oneDecimal, signedDecimal } from '../format.ts';
import type { ControlPictureProps, ControlPoint } from './ControlPicture.tsx';
import type { CrossLine } from './Crosshair.tsx';
import { csvOf, digits } from './csv.ts';

/** A point with what the chart beneath says of it. */
export type ControlRow = Readonly<{
  point: ControlPoint;
  /** From the point before it; null where that counts for no chart. */
  rangeDb: number | null;
}>;

/** One row a point, in the order of time. */
export function controlRows({
  points,
  chart,
}: Pick<ControlPictureProps, 'points' | 'chart'>): readonly ControlRow[] {
  const newest = points.filter(({ isNewest }) => isNewest);
  const ranges = new Map(newest.slice(1).map((point, i) => [point, chart?.ranges[i] ?? null]));
  return points.map((point) => ({ point, rangeDb: ranges.get(point) ?? null }));
}

/** As the axis writes them: with a sign where a side matters. */
export const valueWords = (db: number, isSigned: boolean): string =>
  isSigned ? signedDecimal(db) : oneDecimal(db);

/** Everything that is known of one point. */
export function controlLines(
  { point, rangeDb }: ControlRow,
  figure: string,
  isSigned: boolean,
): readonly CrossLine[] {
  return [
    { key: 'value', name: figure, text: `${valueWords(point.valueDb, isSigned)}\u00A0dB` },
    ...(rangeDb === null
      ? []
      : [{ key: 'range', name: 'from the one before', text: `${oneDecimal(rangeDb)}\u00A0dB` }]),
    ...(point.isNewest ? [] : [{ key: 'before', name: 'counts for no limit', text: '' }]),
    ...point.breaks.map(({ words }) => ({ key: words, name: words, text: '' })),
  ];
}

/** The figure for a spreadsheet: when, dB, the moving range, and whether it counts. */
export const controlCsv = (rows: readonly ControlRow[]): string =>
  csvOf(
    ['read_at', 'value_db', 'moving_range_db', 'counts', 'rules_broken'],
    rows.map(({ point, rangeDb }) => [
      new Date(point.atMs).toISOString(),
      digits(point.valueDb),
      digits(rangeDb),
      point.isNewest ? '1' : '0',
      String(point.breaks.length),
    ]),
  );
