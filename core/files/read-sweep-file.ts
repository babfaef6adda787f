import type { LevelRow } from '../line/level-row.ts';
import { done, type Result } from '../result.ts';
import { readSweepCsv, type Told } from './sweep-csv.ts';
import { isTouchstone, readResponse, rowsOfResponse } from './touchstone/response.ts';

/** What any file of measurements holds: levels in dBmV, or a response in dB. */
export type SweepFile = Readonly<{
  holds: 'levels' | 'response';
  rows: readonly LevelRow[];
  /** What a person should know of how it was read, a sentence each. */
  notes: readonly string[];
}>;

/**
 * A file for bench work: a sweep of levels in any dialect, or a Touchstone file's response.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @param told      what the person says of it, where the text itself does not
 * @returns  rows in MHz and dBmV, or MHz and dB of a response; or a refusal with file and line
 * @source   contract, section 1
 */
export function readSweepFile(text: string, fileName: string, told: Told = {}): Result<SweepFile> {
  if (isTouchstone(text, fileName)) {
    const response = readResponse(text, fileName);
    if (!response.ok) return response;
    const { quantity, notes } = response.value;
    return done({
      holds: 'response',
      rows: rowsOfResponse(response.value),
      notes: [`${quantity} in dB is a response, not a level`, ...notes],
    });
  }
  const sweep = readSweepCsv(text, fileName, told);
  return sweep.ok
    ? done({ holds: 'levels', rows: sweep.value.rows, notes: sweep.value.understood.notes })
    : sweep;
}
