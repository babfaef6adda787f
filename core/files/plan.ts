import { z } from 'zod';
import { done, type Result, refuse } from '../result.ts';
import { type Cell, frequencyReader } from './column-units.ts';
import { plainText } from './csv-lines.ts';
import { TOP_OF_ALL_MHZ } from './frequency-unit.ts';
import { headerWord } from './header-words.ts';
import { schemaWords, valueAt } from './schema-words.ts';
import { readTable } from './sweep-dialect.ts';
import { decimalSign, numberWritten, writtenIn } from './written-number.ts';

const frequenciesMhz = z.array(z.number().positive().max(TOP_OF_ALL_MHZ)).min(1).max(2000);

/** Which frequencies to read, in which order. */
export const Plan = z.strictObject({
  format: z.literal('tiltwright-plan/1'),
  frequenciesMhz,
  testPointLossDb: z.number().min(0).max(60).default(0),
});
export type Plan = z.infer<typeof Plan>;

const planOf = (frequencies: readonly number[]) => ({
  format: 'tiltwright-plan/1',
  frequenciesMhz: frequencies,
});

function checked(raw: unknown, fileName: string): Result<Plan, 'not-a-plan'> {
  const parsed = Plan.safeParse(raw);
  if (parsed.success) return done(parsed.data);
  const issue = parsed.error.issues[0];
  const key = issue?.path.map(String).join('.') ?? '';
  const where = key === '' ? fileName : `${fileName}, ${key}`;
  const why = issue === undefined ? 'not a plan' : schemaWords(issue, valueAt(raw, issue.path));
  return refuse('not-a-plan', where, `${why}; a plan is a list of 1 to 2000 MHz`);
}

function planFromJson(text: string, fileName: string): Result<Plan> {
  try {
    const raw: unknown = JSON.parse(text);
    return checked(Array.isArray(raw) ? planOf(raw) : raw, fileName);
  } catch (fault) {
    const why = fault instanceof Error ? fault.message : 'not JSON';
    return refuse(
      'not-json',
      fileName,
      `not a JSON file (${why}); a plan is a list of MHz, as in [57, 63, 69]`,
    );
  }
}

/** The cells of the frequency column, or of a list that has no header, each with its place. */
function listed(
  text: string,
  fileName: string,
): Result<{ cells: [string, string][]; header: string; separator: string }> {
  const plain = plainText(text, fileName);
  if (!plain.ok) return plain;
  const lines = plain.value.text
    .split('\n')
    .map((line, i) => [line.trim(), `${fileName}, line ${i + 1}`] as const);
  const [first] = lines.filter(([line]) => line !== '');
  if (first !== undefined && writtenIn(first[0]).kind === 'number') {
    const cells = lines
      .filter(([line]) => line !== '')
      .map(([line, where]): [string, string] => [line, where]);
    // Alone on its line a number meets no separator; a comma in it is judged like one between semicolons.
    return done({ cells, header: 'frequency', separator: ';' });
  }
  const table = readTable(text, fileName, ['frequency']);
  if (!table.ok) return table;
  const { body, columns, separator } = table.value;
  const { index = 0, header = 'frequency' } = columns.frequency ?? {};
  const cells = body.map((row): [string, string] => [
    row.cells[index] ?? '',
    `${fileName}, line ${row.line}, column "${header}"`,
  ]);
  return done({ cells, header, separator });
}

/**
 * A plan file's text to the frequencies to read.
 * @param text      JSON as this program writes it, a JSON list of MHz, a sweep (its frequency column), or one frequency
 *                  a line
 * @param fileName  named in a refusal
 * @returns  1 to 2000 frequencies in the file's order; or a refusal with file, line and what would help
 * @source   the plan format is this program's own; units as in contract, section 1
 */
export function readPlan(text: string, fileName: string): Result<Plan> {
  const start = text.replace(/^\uFEFF/, '').trimStart();
  if (start.startsWith('{') || start.startsWith('[')) return planFromJson(start, fileName);
  const list = listed(text, fileName);
  if (!list.ok) return list;
  const cells: Cell[] = [];
  for (const [cell, where] of list.value.cells) {
    const written = writtenIn(cell);
    if (written.kind === 'words')
      return refuse('not-a-number', where, `"${cell.slice(0, 40)}" is not one frequency`);
    if (written.kind === 'number' && numberWritten(written.digits) !== 0)
      cells.push({ digits: written.digits, unit: written.unit, where });
  }
  const decimal = decimalSign(cells, list.value.separator);
  if (!decimal.ok) return decimal;
  const { header } = list.value;
  const reader = frequencyReader({ index: 0, header, word: headerWord(header) }, cells, fileName);
  if (!reader.ok) return reader;
  const frequencies: number[] = [];
  for (const cell of cells) {
    const read = reader.value.read(cell);
    if (!read.ok) return read;
    frequencies.push(read.value);
  }
  return checked(planOf(frequencies), fileName);
}
