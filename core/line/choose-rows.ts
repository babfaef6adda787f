import type { LineUpEntry } from '../channels/line-up.ts';
import { normalizeRows, type SignalGroup } from '../channels/normalize.ts';
import type { LevelRow } from './level-row.ts';
import type { Shape } from './position.ts';
import { type FarOff, screenCarriers } from './screen-carriers.ts';
import { type Excluded, type UsableRow, usableRows } from './usable-rows.ts';

export type RowChoice = Readonly<{
  shape?: Shape | undefined;
  lowMhz?: number | undefined;
  highMhz?: number | undefined;
  keepAll?: boolean | undefined;
  /** What each channel carries; without it rows of different kinds are moved by their usual steps. */
  lineUp?: readonly LineUpEntry[] | null | undefined;
}>;
/** The kinds of signal among the rows used, where there are several or a line-up was given. */
export type ChosenSignals = Readonly<{
  groups: readonly SignalGroup[];
  /** Per used row the index of its group. */
  groupAt: Int32Array;
  /** A group's name, or "line-up". */
  reference: string;
  notes: readonly string[];
}>;
export type ChosenRows = Readonly<{
  /** In rising frequency; levels on the reference line where there are several kinds of signal. */
  used: readonly UsableRow[];
  excluded: readonly Excluded[];
  /** Rows far off the others' line that stay in, because they are too many; null where there are none. */
  farOff: FarOff | null;
  outsideCount: number;
  /** Null where nothing was moved and nothing is to be said. */
  signals: ChosenSignals | null;
}>;

/**
 * The rows that a fit, a standing and a proposal all use: usable, moved onto one line by kind of signal, and carriers at
 * their level; or every usable row as it stands when all are wanted.
 * @param rows    MHz and dBmV, any order
 * @param choice  shape (linear), low and high in MHz (none), keepAll (false), lineUp (none): defaults in brackets
 * @returns  the rows in rising frequency, what was left out and why, how many lie outside low..high
 * @source   contract, section 3, "fit, exactly" and "propose, exactly"; design: each kind against its own target
 */
export function chooseRows(rows: readonly LevelRow[], choice: RowChoice): ChosenRows {
  const { usable, excluded, outsideCount } = usableRows(rows, choice.lowMhz, choice.highMhz);
  if (choice.keepAll === true) return { used: usable, excluded, farOff: null, outsideCount, signals: null };
  const normalized = normalizeRows(usable, choice.lineUp ?? null);
  const screened = screenCarriers(normalized.rows, choice.shape ?? 'linear');
  const { groups, reference, notes } = normalized;
  const chosen = {
    used: screened.kept,
    excluded: screened.excluded.length === 0 ? excluded : [...excluded, ...screened.excluded],
    farOff: screened.farOff,
    outsideCount,
  };
  if (notes.length === 0) return { ...chosen, signals: null };
  const groupAt = new Int32Array(screened.kept.length);
  for (let i = 0; i < groupAt.length; i++) groupAt[i] = normalized.groupAt[screened.keptAt[i] ?? 0] ?? 0;
  return { ...chosen, signals: { groups, groupAt, reference, notes } };
}
