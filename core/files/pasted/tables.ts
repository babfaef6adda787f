import { type Refusal, refuse } from '../../result.ts';
import type { NotedLine } from '../csv-lines.ts';
import type { Clash, Table } from './table.ts';

/** Every table of a text, and what else stands in it. */
export type Tables = Readonly<{
  separator: string;
  tables: readonly Table[];
  comments: readonly NotedLine[];
  /** Lines below everything else that say nothing but units. */
  footers: readonly NotedLine[];
  rest: readonly NotedLine[];
  /** The first of those that holds levels all the same. */
  stray: NotedLine | null;
}>;

export type TableRefusal =
  | 'not-text'
  | 'too-many'
  | 'empty'
  | 'bad-quotes'
  | 'two-columns'
  | 'not-understood'
  | 'no-header'
  | 'two-separators'
  | 'several-tables'
  | 'not-json'
  | 'bad-key'
  | 'row-length';

/**
 * Why a text is refused in which two headings name what a sweep has one of.
 * @param found     the first such heading; null where there is none
 * @param fileName  named in the refusal
 * @returns  null where no two do
 * @source   contract, section 1: nothing is guessed silently
 */
export function clashRefusal(
  { clash }: Readonly<{ clash: (Clash & Readonly<{ line: number }>) | null }>,
  fileName: string,
): Refusal<TableRefusal> | null {
  if (clash === null) return null;
  const { role, one, other, line } = clash;
  const help = `both "${one}" and "${other}" name a ${role}; keep the one that counts`;
  return refuse('two-columns', `${fileName}, line ${line}`, help);
}
