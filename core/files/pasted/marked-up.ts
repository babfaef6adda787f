/** A row of a table on a web page, or of a forum's own marks for one. */
const hasRow = /<tr[\s>]|\[tr[\]=\s]/i;
/** What a cell may span, or hold, so that nobody can say where it belongs. */
const isTangled = /\browspan\s*=\s*["']?(?!1\b)\d|<table\b(?:(?!<\/table)[\s\S])*<table\b/i;
/** A page of tables is not larger than this; what is vaster is left as it stands. */
const MOST_CHARS = 2_000_000;

const entities: Readonly<Record<string, string>> = {
  nbsp: '\u00A0',
  thinsp: '\u2009',
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
  micro: '\u00B5',
  mu: '\u03BC',
  minus: '\u2212',
  ndash: '\u2013',
};

function letterOf(whole: string, name: string): string {
  const code = /^#(?:x([\da-f]{1,5})|(\d{1,6}))$/i.exec(name);
  if (code === null) return entities[name.toLowerCase()] ?? whole;
  const point = code[1] === undefined ? Number(code[2]) : Number.parseInt(code[1], 16);
  return point >= 32 && point <= 0xffff ? String.fromCharCode(point) : whole;
}

/** What is struck out keeps its marks, so that no reader takes it: it is not said any more. */
const marks =
  /<\/?(?!(?:s|del|strike)[\s>])[a-z][^<>]*>|\[\/?(?:b|i|u|tt|code|pre|quote|url|size|color|font|center|left|right|table|tbody|thead|tr|td|th)(?:=[^[\]]*)?\]/gi;

/** What a cell or a line says, on one line and without marks. */
const plainWords = (inner: string): string =>
  inner
    .replace(/<!--[\s\S]*?-->/g, '')
    .replace(/<br\s*\/?>|\[br\]/gi, ' ')
    .replace(marks, '')
    .replace(/&(#?[a-z\d]{2,8});/gi, letterOf)
    .replace(/[ \t\n]+/g, ' ')
    .trim();

/** One row's cells, each as wide as it says; null where it has none. */
function cellsOfRow(inner: string): string[] | null {
  const begins = [...inner.matchAll(/<t[dh]\b([^<>]*)>|\[t[dh]([^[\]]*)\]/gi)];
  if (begins.length === 0) return null;
  return begins.flatMap((begin, i) => {
    const from = begin.index + begin[0].length;
    const text = plainWords(inner.slice(from, begins[i + 1]?.index ?? inner.length));
    const wide = Number(/colspan\s*=\s*["']?(\d{1,2})\b/i.exec(begin[1] ?? begin[2] ?? '')?.[1] ?? 1);
    return [text, ...Array.from({ length: Math.max(wide, 1) - 1 }, () => '')];
  });
}

/** Lines of a text by number, where something was put; what is put on a taken line stands below it. */
function sheetOf(count: number) {
  const lines = Array.from({ length: count }, () => '');
  const put = (line: number, words: string) => {
    const before = lines[line] ?? '';
    if (words !== '') lines[line] = before === '' ? words : `${before}\n${words}`;
  };
  return { put, text: () => lines.join('\n') };
}

/**
 * A text in which the rows of a web page's or a forum's tables have become lines of cells parted by tabs. A row stays
 * on the line on which it begins, if no other row begins there.
 * @param text  line feeds only
 * @returns  the same text where it holds no such row, or a table of which it is not certain which cell belongs where
 * @source   HTML Standard, "Tabular data", "Named character references"; the marks of forums are common practice
 */
export function withoutMarks(text: string): string {
  // Told by one sign, so that most texts are looked at no further.
  if (
    !(text.includes('<') || text.includes('[')) ||
    !hasRow.test(text) ||
    text.length > MOST_CHARS ||
    isTangled.test(text)
  )
    return text;
  const rows = [...text.matchAll(/<tr\b[^<>]*>|\[tr[^[\]]*\]/gi)];
  const sheet = sheetOf(text.split('\n').length);
  let line = 0;
  let at = 0;
  const goTo = (index: number) => {
    for (; at < index; at++) if (text[at] === '\n') line++;
  };
  const putWords = (from: number, to: number) => {
    goTo(from);
    for (const [i, words] of text.slice(from, to).split('\n').entries())
      sheet.put(line + i, plainWords(words));
  };
  putWords(0, rows[0]?.index ?? 0);
  for (const [i, row] of rows.entries()) {
    const from = row.index + row[0].length;
    const next = rows[i + 1]?.index ?? text.length;
    const inner = text.slice(from, next);
    const end = /<\/(?:tr|table|tbody|thead)>|\[\/(?:tr|table)\]/i.exec(inner)?.index ?? inner.length;
    const cells = cellsOfRow(inner.slice(0, end));
    if (cells === null) return text;
    goTo(row.index);
    sheet.put(line, cells.join('\t'));
    putWords(from + end, next);
  }
  return sheet.text();
}
