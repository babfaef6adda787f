import type { LevelRow } from '../line/level-row.ts';
import { done, type Result, refuse } from '../result.ts';
import { plainText } from './csv-lines.ts';
import { readSweepCsv } from './sweep-csv.ts';
import { writeTouchstone } from './touchstone/write-touchstone.ts';
import { type CsvForm, OWN_FORM, writeSweepCsv } from './write-csv.ts';

/** What a sweep can be saved as. A response needs what went in besides what came out. */
export type ExportFormat = 'own' | 'exchange' | 'spreadsheet' | 'json' | 's2p';
export const exportFormats: readonly ExportFormat[] = ['own', 'exchange', 'spreadsheet', 'json', 's2p'];

export type ExportSource = Readonly<{
  rows: readonly LevelRow[];
  /** Lines about the sweep: where, when, which meter. */
  comments: readonly string[];
  /** The sweep at the input, where the response is wanted. */
  inputRows?: readonly LevelRow[];
}>;

/** How each preset is written; the spreadsheet's decimal sign is that of its country. */
const formOf = (format: 'own' | 'exchange' | 'spreadsheet', decimal: '.' | ','): CsvForm => {
  if (format === 'own') return OWN_FORM;
  if (format === 'exchange') return { separator: ',', decimal: '.', lineEnd: '\r\n', byteOrderMark: false };
  return { separator: decimal === ',' ? ';' : ',', decimal, lineEnd: '\r\n', byteOrderMark: true };
};

/**
 * What lies between two sweeps: output less input at the frequencies of both.
 * @param outputRows  MHz and dBmV
 * @param inputRows   MHz and dBmV
 * @returns  MHz rising and gain in dB; or a refusal where no frequency is in both, or one stands twice
 * @source   definition of gain
 */
export function responseBetween(
  outputRows: readonly LevelRow[],
  inputRows: readonly LevelRow[],
): Result<{ frequencyMhz: number; gainDb: number }[]> {
  const usable = (rows: readonly LevelRow[]) =>
    rows.flatMap(({ frequencyMhz, levelDbmv, unlocked }) =>
      frequencyMhz === null || levelDbmv === null || unlocked ? [] : [[frequencyMhz, levelDbmv] as const],
    );
  const input = new Map(usable(inputRows));
  const output = new Map(usable(outputRows));
  if (input.size < usable(inputRows).length || output.size < usable(outputRows).length)
    return refuse(
      'duplicates',
      'the sweeps',
      'a frequency stands twice in one of them; keep the reading that counts',
    );
  const points = [...output].flatMap(([frequencyMhz, outDbmv]) => {
    const inDbmv = input.get(frequencyMhz);
    return inDbmv === undefined ? [] : [{ frequencyMhz, gainDb: outDbmv - inDbmv }];
  });
  if (points.length === 0) return refuse('no-common', 'the sweeps', 'no frequency stands in both of them');
  return done(points.sort((a, b) => a.frequencyMhz - b.frequencyMhz));
}

/**
 * A sweep as a file.
 * @param source   rows in MHz and dBmV at 75 ohm, and what is said about them
 * @param format   the project's own CSV; the exchange preset (comma, point, CR LF, no byte order mark); the spreadsheet
 *                 preset (byte order mark, the country's separator and decimal sign); JSON; a response as .s2p
 * @param decimal  of the spreadsheet's country; a comma unless told
 * @returns  the text; or a refusal of a response without its input
 * @source   RFC 4180; contract, section 1; the spreadsheet preset: common practice, no published source
 */
export function exportSweep(
  source: ExportSource,
  format: ExportFormat,
  decimal: '.' | ',' = ',',
): Result<string> {
  const { rows, comments, inputRows } = source;
  switch (format) {
    case 'own':
    case 'exchange':
    case 'spreadsheet':
      return done(writeSweepCsv(rows, comments, formOf(format, decimal)));
    case 'json': {
      const kept = rows.map(({ line: _line, reason: _reason, ...row }) => row);
      return done(
        `${JSON.stringify({ format: 'tiltwright-sweep/1', about: comments, rows: kept }, null, 1)}\n`,
      );
    }
    case 's2p': {
      if (inputRows === undefined)
        return refuse('no-input', 'the sweep', 'levels are no response; give the sweep at the input too');
      const points = responseBetween(rows, inputRows);
      return points.ok ? done(writeTouchstone(points.value, comments)) : points;
    }
  }
}

/**
 * A sweep in the project's own CSV as what can be exported.
 * @param text      as `writeSweepCsv` wrote it
 * @param fileName  named in a refusal
 * @returns  its rows and what its comment lines say; or a refusal with file and line
 * @source   contract, section 1
 */
export function exportSource(text: string, fileName: string): Result<ExportSource> {
  const read = readSweepCsv(text, fileName);
  if (!read.ok) return read;
  const plain = plainText(text, fileName);
  return plain.ok
    ? done({ rows: read.value.rows, comments: plain.value.comments.map((comment) => comment.text) })
    : plain;
}
