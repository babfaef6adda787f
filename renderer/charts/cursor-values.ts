import type { LevelUnitName } from '../../core/bridge/settings-calls.ts';
import { bareLevel, level, mhz, oneDecimal, signedDb } from '../format.ts';
import type { ChartRow } from './rows.ts';

/** One line of what stands under the crosshair; `ink` is that of its line in the drawing, null for what has none. */
export type CursorValue = Readonly<{
  key: 'shown' | 'before' | 'predicted' | 'design' | 'off' | 'mer' | 'signal';
  name: string;
  text: string;
  levelDbmv: number | null;
}>;

export type SeriesNames = Readonly<{ shown: string; before: string }>;

/** Everything that is known of one channel, in the order in which it is asked: read, read before, to come, wanted, off. */
export function cursorValues(row: ChartRow, names: SeriesNames, unit: LevelUnitName): readonly CursorValue[] {
  const values: CursorValue[] = [];
  const add = (key: CursorValue['key'], name: string, levelDbmv: number | null) => {
    if (levelDbmv !== null) values.push({ key, name, text: bareLevel(levelDbmv, unit), levelDbmv });
  };
  if (row.silent) values.push({ key: 'shown', name: names.shown, text: 'no level', levelDbmv: null });
  add('shown', names.shown, row.shownDbmv);
  add('before', names.before, row.foundDbmv);
  add('predicted', 'predicted', row.predictedDbmv);
  add('design', 'design', row.targetDbmv);
  if (row.deviationDb !== null)
    values.push({ key: 'off', name: 'from design', text: signedDb(row.deviationDb), levelDbmv: null });
  if (row.merDb !== null)
    values.push({ key: 'mer', name: 'MER', text: `${oneDecimal(row.merDb)}\u00A0dB`, levelDbmv: null });
  if (row.signal !== null && row.signal !== 'unknown kind')
    values.push({ key: 'signal', name: row.signal, text: '', levelDbmv: null });
  return values;
}

/** The same as one line, for whoever listens. */
export const cursorWords = (row: ChartRow, names: SeriesNames, unit: LevelUnitName): string =>
  [
    mhz(row.frequencyMhz),
    ...cursorValues(row, names, unit).map(({ name, text, levelDbmv }) =>
      text === '' ? name : `${name} ${levelDbmv === null ? text : level(levelDbmv, unit)}`,
    ),
  ].join(', ');
