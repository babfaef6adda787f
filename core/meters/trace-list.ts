import { done, type Result, refuse } from '../result.ts';

const number = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[Ee][+-]?\d+)?$/;
const LONGEST_NUMBER = 40;

/**
 * The numbers of a trace that was answered as text.
 * @param line       one line without its end
 * @param separator  between two numbers; blanks around it are allowed
 * @param points     how many numbers were asked for
 * @returns  exactly that many finite numbers in the meter's own unit, or why the line is no such list
 * @source   IEEE 488.2, 8.7 (NR1 to NR3), joined by commas as in SCPI-1999 FORMat ASCii
 */
export function readTraceList(
  line: string,
  separator: string,
  points: number,
): Result<readonly number[], 'not-a-trace'> {
  const cells = line.split(separator);
  if (cells.length !== points)
    return refuse('not-a-trace', 'trace', `${cells.length} numbers came, ${points} were asked for`);
  const amounts: number[] = [];
  for (const [i, cell] of cells.entries()) {
    const written = cell.trim();
    const amount = written.length <= LONGEST_NUMBER && number.test(written) ? Number(written) : Number.NaN;
    if (!Number.isFinite(amount))
      return refuse(
        'not-a-trace',
        `trace, point ${i + 1}`,
        `"${written.slice(0, LONGEST_NUMBER)}" is no number`,
      );
    amounts.push(amount);
  }
  return done(amounts);
}
