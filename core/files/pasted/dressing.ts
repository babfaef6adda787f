/** What a forum or a mail sets before each line that it quotes. */
const quotedLine = /^[ \t]*>[> \t]*/;
/** A quoted heading: no number stands behind the sign, so that it can't mean "more than". */
const quotedWords = /^[ \t]*>[> \t]*[^\s\d.,+-]/;
/** A sign of a list before a frequency with its unit: there it can be no minus. */
const listed = /^[ \t]*(?:[-*\u2022\u2013\u00B7]|\d{1,3}[.)])[ \t]+(?=\d[\d.,]*[ \u00A0]?[kmg]?hz\b)/i;

/**
 * A text without what quoting and listing set before its lines; every line stays its line.
 * @param text  line feeds only
 * @returns  the same text where no line is dressed so
 * @source   common practice, no published source; the quoting of RFC 3676, section 4.5
 */
export function undressed(text: string): string {
  const first = /\S/.exec(text);
  if (first === null) return text;
  const lines = text.split('\n');
  const isBlank = (line: string) => line.trim() === '';
  if (first[0] === '>' && lines.every((line) => isBlank(line) || quotedLine.test(line)))
    return undressed(lines.map((line) => line.replace(quotedLine, '')).join('\n'));
  const quoted = text.includes('>') ? lines.filter((line) => quotedLine.test(line)) : [];
  if (quoted.length > 1 && quotedWords.test(quoted[0] ?? ''))
    return undressed(lines.map((line) => line.replace(quotedLine, '')).join('\n'));
  const head = lines.slice(0, 200);
  if (!head.some((line) => listed.test(line))) return text;
  return lines.map((line) => line.replace(listed, '')).join('\n');
}

/**
 * A cell without Markdown's signs for bold, slanted and code. What is struck out keeps its signs: it is not said any more.
 * @param cell  trimmed
 * @returns  what stands between them; the cell itself where they do not close
 * @source   CommonMark 0.31, "Emphasis and strong emphasis", "Code spans"
 */
export const bareCell = (cell: string): string => {
  const inner = /^(\*{1,3}|_{1,3}|`{1,2})(?=[^\s*_`~])(.*[^\s*_`~])\1$/.exec(cell)?.[2];
  if (inner !== undefined) return bareCell(inner);
  return cell.includes('**') ? cell.replace(/\*\*([^\s*][^*]*)\*\*/g, '$1') : cell;
};
