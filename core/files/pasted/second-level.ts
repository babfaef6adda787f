import { type Refusal, refuse } from '../../result.ts';
import { headerWord } from '../header-words.ts';
import { levelUnitOf } from '../level-unit.ts';
import { writtenIn } from '../written-number.ts';
import type { Table } from './table.ts';

/** So many rows show what a column holds. */
const LOOKED_AT = 20;

/**
 * Refuses a table with a second column that may well be its levels: "Level (dBmV)" beside "Corrected (dBmV)", "Level A"
 * beside "Level B". Which of them is the reading, nobody but a person can tell.
 * @param table     its columns certain
 * @param fileName  named in the refusal
 * @returns  null where every other column says that it is something else, or holds no numbers
 * @source   contract, section 1: nothing is guessed silently; the words are common practice, no published source
 */
export function secondLevel(table: Table, fileName: string): Refusal<'two-columns'> | null {
  const { header, columns, body } = table;
  const { level } = columns;
  if (level === undefined) return null;
  const named = new Set(Object.values(columns).map(({ index }) => index));
  const looked = body.slice(0, LOOKED_AT);
  const other = header.cells.find((text, i) => {
    const word = headerWord(text);
    if (named.has(i) || !word.mayBeLevel) return false;
    if (word.levelUnit !== null && level.word.levelUnit !== null && word.levelUnit !== level.word.levelUnit)
      return false;
    const cells = looked.map((row) => writtenIn(row.cells[i] ?? ''));
    const numbers = cells.filter(
      (one) => one.kind === 'number' && (one.unit === '' || levelUnitOf(one.unit) !== null),
    );
    return numbers.length > 0 && cells.every((one) => one.kind !== 'words');
  });
  if (other === undefined) return null;
  const help = `both "${level.header}" and "${other}" may be the level; keep the one that counts`;
  return refuse('two-columns', `${fileName}, line ${level.line ?? header.line}`, help);
}
