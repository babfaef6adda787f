import { done, type Refusal, type Result, refuse } from '../result.ts';
import { celsiusFromFahrenheit } from '../units.ts';
import { type CsvRow, plainText, splitRows } from './csv-lines.ts';
import { decimalSign, numberWritten, type Placed, writtenIn } from './written-number.ts';

/** One day's air, degrees C. */
export type ClimateDay = Readonly<{ date: string; minC: number; maxC: number }>;

export type Climate = Readonly<{
  /** In the order of their dates, each date once. */
  days: readonly ClimateDay[];
  coldestC: number;
  hottestC: number;
  /** Dates that stand in the file without both temperatures. */
  withoutReading: readonly string[];
}>;

type Unit = 'C' | 'F';
type Columns = Readonly<{ date: number; min: number; max: number; minUnit: Unit; maxUnit: Unit }>;

/** Colder and hotter than any weather on record, so that a wrong column or unit is noticed. */
const COLDEST_C = -90;
const HOTTEST_C = 60;
const FORM = 'the first line is date,min_c,max_c';

const wordsOf = (header: string): string[] =>
  header
    .toLowerCase()
    .split(/[^a-z]+/)
    .filter((word) => word !== '');
const isMin = (words: string[]) => words.some((word) => /^(t?min|tmn|minimum|low|lowest)$/.test(word));
const isMax = (words: string[]) => words.some((word) => /^(t?max|tmx|maximum|high|highest)$/.test(word));

function unitOf(words: string[]): Unit | null {
  const inC = words.some((word) => /^(c|degc|celsius)$/.test(word));
  const inF = words.some((word) => /^(f|degf|fahrenheit)$/.test(word));
  if (inC === inF) return null;
  return inC ? 'C' : 'F';
}

function columnsOf(header: CsvRow, fileName: string): Result<Columns, 'no-column' | 'no-unit'> {
  const words = header.cells.map(wordsOf);
  const only = (test: (words: string[]) => boolean): number => {
    const found = words.flatMap((one, i) => (test(one) ? [i] : []));
    return found.length === 1 ? (found[0] ?? -1) : -1;
  };
  const date = only((one) => one.includes('date') || one.includes('day'));
  const min = only(isMin);
  const max = only(isMax);
  const where = `${fileName}, line ${header.line}`;
  for (const [column, what] of [
    [date, 'a date'],
    [min, 'a minimum'],
    [max, 'a maximum'],
  ] as const)
    if (column < 0) return refuse('no-column', where, `there is not exactly one column of ${what}; ${FORM}`);
  const minUnit = unitOf(words[min] ?? []);
  const maxUnit = unitOf(words[max] ?? []);
  if (minUnit === null || maxUnit === null)
    return refuse('no-unit', where, `say C or F in the heading of both temperatures; ${FORM}`);
  return done({ date, min, max, minUnit, maxUnit });
}

/** A day that a calendar has, written year first. */
function isDate(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false;
  const at = new Date(`${text}T00:00:00Z`);
  return Number.isFinite(at.getTime()) && at.toISOString().startsWith(text);
}

type Cell = Readonly<{ text: string; where: string; unit: Unit }>;

function temperatureIn(cell: Cell): Result<number | null, 'not-a-number' | 'out-of-range'> {
  const written = writtenIn(cell.text);
  if (written.kind === 'blank') return done(null);
  const value = written.kind === 'number' && written.unit === '' ? numberWritten(written.digits) : null;
  if (value === null)
    return refuse('not-a-number', cell.where, `"${cell.text.slice(0, 40)}" is not a temperature`);
  const valueC = cell.unit === 'C' ? value : celsiusFromFahrenheit(value);
  if (valueC < COLDEST_C || valueC > HOTTEST_C)
    return refuse('out-of-range', cell.where, `${cell.text} °${cell.unit} is no weather; check the unit`);
  return done(valueC);
}

const cellsOf = (row: CsvRow, columns: Columns, fileName: string): readonly [Cell, Cell] => {
  const cell = (index: number, unit: Unit, name: string): Cell => ({
    text: row.cells[index] ?? '',
    where: `${fileName}, line ${row.line}, ${name}`,
    unit,
  });
  return [cell(columns.min, columns.minUnit, 'minimum'), cell(columns.max, columns.maxUnit, 'maximum')];
};

type DayCode = 'not-a-number' | 'out-of-range' | 'bad-date' | 'min-above-max';

function dayIn(row: CsvRow, columns: Columns, fileName: string): Result<ClimateDay | string, DayCode> {
  const date = row.cells[columns.date] ?? '';
  const where = `${fileName}, line ${row.line}`;
  if (!isDate(date))
    return refuse('bad-date', `${where}, date`, `"${date.slice(0, 40)}" is no date; write 2026-01-31`);
  const [minCell, maxCell] = cellsOf(row, columns, fileName);
  const min = temperatureIn(minCell);
  if (!min.ok) return min;
  const max = temperatureIn(maxCell);
  if (!max.ok) return max;
  if (min.value === null || max.value === null) return done(date);
  if (min.value > max.value)
    return refuse('min-above-max', where, 'the minimum lies above the maximum; check the columns');
  return done({ date, minC: min.value, maxC: max.value });
}

function mixedDecimals(rows: readonly CsvRow[], columns: Columns, separator: string, fileName: string) {
  const placed: Placed[] = rows.flatMap((row) =>
    cellsOf(row, columns, fileName).flatMap(({ text, where }) => {
      const written = writtenIn(text);
      return written.kind === 'number' ? [{ digits: written.digits, where }] : [];
    }),
  );
  return decimalSign(placed, separator);
}

function ordered(days: readonly ClimateDay[], gaps: readonly string[], fileName: string): Result<Climate> {
  const sorted = days.toSorted((a, b) => (a.date < b.date ? -1 : 1));
  const seen = new Set<string>();
  const twice = [...days.map((day) => day.date), ...gaps].find((date) => seen.size === seen.add(date).size);
  if (twice !== undefined) return refuse('twice', `${fileName}, ${twice}`, 'this date stands there twice');
  if (sorted.length === 0) return refuse('no-days', fileName, `no day has both temperatures; ${FORM}`);
  return done({
    days: sorted,
    coldestC: sorted.reduce((least, day) => Math.min(least, day.minC), Number.POSITIVE_INFINITY),
    hottestC: sorted.reduce((most, day) => Math.max(most, day.maxC), Number.NEGATIVE_INFINITY),
    withoutReading: gaps.toSorted(),
  });
}

/**
 * A file of daily minimum and maximum air temperatures.
 * @param text      CSV as decoded from UTF-8: date, minimum and maximum with C or F in their headings; comma, semicolon
 *                  or tab between
 * @param fileName  named in every refusal
 * @returns  the days in degrees C, and the coldest and the hottest of them; or a refusal with file, line, column and what
 *           would help. Nothing is half read and no unit is guessed.
 * @source   contract, section 1, for what is refused; the form is this program's own
 */
export function readClimate(text: string, fileName: string): Result<Climate> {
  const plain = plainText(text, fileName);
  if (!plain.ok) return plain;
  const firstLine = plain.value.text.split('\n').find((line) => line.trim() !== '') ?? '';
  const separator = plain.value.toldSeparator ?? ['\t', ';'].find((sign) => firstLine.includes(sign)) ?? ',';
  const rows = splitRows(plain.value.text, separator, fileName);
  if (!rows.ok) return rows;
  const [header, ...body] = rows.value;
  if (header === undefined) return refuse('empty', fileName, FORM);
  const columns = columnsOf(header, fileName);
  if (!columns.ok) return columns;
  const decimals: Refusal | Readonly<{ ok: true }> = mixedDecimals(body, columns.value, separator, fileName);
  if (!decimals.ok) return decimals;
  const days: ClimateDay[] = [];
  const gaps: string[] = [];
  for (const row of body) {
    const day = dayIn(row, columns.value, fileName);
    if (!day.ok) return day;
    if (typeof day.value === 'string') gaps.push(day.value);
    else days.push(day.value);
  }
  return ordered(days, gaps, fileName);
}

/**
 * A climate of two numbers: one day that is as cold as the record and as hot as the record.
 * @param coldestC  degrees C
 * @param hottestC  degrees C, not below coldestC
 * @returns  the climate without days, or a refusal
 * @source   common practice, no published source
 */
export function climateOfRecords(coldestC: number, hottestC: number): Result<Climate, 'bad-records'> {
  if (!(coldestC >= COLDEST_C && hottestC <= HOTTEST_C && coldestC <= hottestC))
    return refuse(
      'bad-records',
      `record cold ${coldestC} °C, record hot ${hottestC} °C`,
      `say the colder first, both between ${COLDEST_C} and ${HOTTEST_C} °C`,
    );
  return done({ days: [], coldestC, hottestC, withoutReading: [] });
}
