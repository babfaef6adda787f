import type { LevelRow } from '../line/level-row.ts';
import type { Refusal } from '../result.ts';
import type { NotedLine } from './csv-lines.ts';
import type { FoundTable } from './pasted/choose-tables.ts';
import { separatorName } from './pasted/grid.ts';
import { sweepOfTables, type Told, tablesOfSweep } from './sweep-csv.ts';
import { isTouchstone, readResponse } from './touchstone/response.ts';

/** What is shown of a file before anybody accepts it. */
export type SweepPreview = Readonly<{
  /** Why it can't be taken as it is; null where it can. */
  refusal: Refusal | null;
  /** Which quantity each heading was taken for, in the order of the file's own words. */
  columns: readonly Readonly<{ role: string; heading: string }>[];
  /** "tab", "semicolon"; null where nothing was understood. */
  separator: string | null;
  decimal: '.' | ',' | null;
  frequencyUnit: string | null;
  levelUnit: string | null;
  /** Every table of levels, with the number to choose it by. */
  tables: readonly FoundTable[];
  rowCount: number;
  /** Rows with a frequency and a level that are not said to be unlocked. */
  readingCount: number;
  /** All of those, MHz and dBmV in the order of the file: for a picture of them. */
  levels: readonly (readonly [number, number])[];
  lowMhz: number | null;
  highMhz: number | null;
  /** The first ten rows, also those that are no reading. */
  rows: readonly LevelRow[];
  left: readonly Readonly<{ line: number; reason: string }>[];
  /** Lines that say nothing of levels. */
  rest: readonly NotedLine[];
  notes: readonly string[];
  /** A question whose answer would make it certain. */
  asks: 'table' | 'level-unit' | 'frequency-unit' | null;
}>;

const SHOWN_ROWS = 10;

const nothing: SweepPreview = {
  refusal: null,
  columns: [],
  separator: null,
  decimal: null,
  frequencyUnit: null,
  levelUnit: null,
  tables: [],
  rowCount: 0,
  readingCount: 0,
  levels: [],
  lowMhz: null,
  highMhz: null,
  rows: [],
  left: [],
  rest: [],
  notes: [],
  asks: null,
};

function asksAfter(refusal: Refusal): SweepPreview['asks'] {
  if (refusal.code === 'several-tables') return 'table';
  if (refusal.code !== 'no-unit') return null;
  return /frequency/.test(refusal.help) ? 'frequency-unit' : 'level-unit';
}

/**
 * What a text would be taken for, before it is accepted.
 * @param text      as decoded
 * @param fileName  named in a refusal
 * @param told      what the person says of it so far
 * @returns  what was understood, ten rows, what is left out and why; or the refusal, with what is known all the same and
 *           the question that would make it certain
 * @source   contract, section 1
 */
export function previewSweep(text: string, fileName: string, told: Told = {}): SweepPreview {
  if (isTouchstone(text, fileName)) {
    const response = readResponse(text, fileName);
    const help = 'a Touchstone file holds a response, not levels; a visit takes levels';
    const refusal: Refusal = response.ok
      ? { ok: false, code: 'not-levels', where: fileName, help }
      : response;
    return { ...nothing, refusal, notes: response.ok ? response.value.notes : [] };
  }
  const tables = tablesOfSweep(text, fileName, told);
  if (!tables.ok) return { ...nothing, refusal: tables, asks: asksAfter(tables) };
  const { all, found } = tables.value;
  const known = { ...nothing, separator: separatorName(all.separator), tables: found, rest: all.rest };
  const read = sweepOfTables(tables.value, fileName, told);
  if (!read.ok) return { ...known, refusal: read, asks: asksAfter(read) };
  const { rows, left, understood } = read.value;
  const levels: (readonly [number, number])[] = [];
  let lowMhz: number | null = null;
  let highMhz: number | null = null;
  for (const { frequencyMhz, levelDbmv, unlocked } of rows) {
    if (frequencyMhz === null || levelDbmv === null || unlocked) continue;
    levels.push([frequencyMhz, levelDbmv]);
    lowMhz = lowMhz === null ? frequencyMhz : Math.min(lowMhz, frequencyMhz);
    highMhz = highMhz === null ? frequencyMhz : Math.max(highMhz, frequencyMhz);
  }
  return {
    ...known,
    columns: Object.entries(understood.columns).map(([role, heading]) => ({ role, heading })),
    decimal: understood.decimal,
    frequencyUnit: understood.frequencyUnit,
    levelUnit: understood.levelUnit,
    tables: understood.tables,
    rowCount: rows.length,
    readingCount: levels.length,
    levels,
    lowMhz,
    highMhz,
    rows: rows.slice(0, SHOWN_ROWS),
    left,
    notes: understood.notes,
    // More than one table was taken: the person may still want only one.
    asks: null,
  };
}
