import { type ExportFormat, exportSource, exportSweep } from '../../core/files/export-sweep.ts';
import { done, type Result } from '../../core/result.ts';

export type SweepFormat = Exclude<ExportFormat, 's2p'>;
type TextFile = Readonly<{ fileName: string; text: string }>;

const endings: Readonly<Record<SweepFormat, string>> = {
  own: '.csv',
  exchange: '.exchange.csv',
  spreadsheet: '.spreadsheet.csv',
  json: '.json',
};

/** The decimal sign of this computer's country, which its spreadsheet expects. */
const decimalHere = (): ',' | '.' =>
  new Intl.NumberFormat().formatToParts(1.5).some(({ type, value }) => type === 'decimal' && value === ',')
    ? ','
    : '.';

/** A sweep as the bridge exports it, in the form that the next reader needs. */
export function sweepAsFile(file: TextFile, format: SweepFormat): Result<TextFile> {
  if (format === 'own') return done(file);
  const source = exportSource(file.text, file.fileName);
  const text = source.ok ? exportSweep(source.value, format, decimalHere()) : source;
  return text.ok
    ? done({ fileName: file.fileName.replace(/\.csv$/, endings[format]), text: text.value })
    : text;
}

/**
 * What lies between two sweeps of a visit as Touchstone: the one that came out less the one that went in.
 * @param output  as the bridge exports it
 * @param input   of the port before it, in the same form
 */
export function responseAsFile(output: TextFile, input: TextFile): Result<TextFile> {
  const [out, into] = [exportSource(output.text, output.fileName), exportSource(input.text, input.fileName)];
  if (!out.ok) return out;
  if (!into.ok) return into;
  const comments = [...out.value.comments, ...into.value.comments.map((comment) => `input: ${comment}`)];
  const text = exportSweep({ rows: out.value.rows, comments, inputRows: into.value.rows }, 's2p');
  return text.ok ? done({ fileName: output.fileName.replace(/\.csv$/, '.s2p'), text: text.value }) : text;
}
