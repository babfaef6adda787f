import { create, type Font } from 'fontkit';
import { type TypeFile, typeFiles, type Weight } from './type-files.ts';

/** A stretch of text that one file of type has all letters of. */
export type Run = Readonly<{ font: string; text: string }>;
export type TextStyle = Readonly<{ sizePt: number; bold: boolean }>;

export type PdfType = Readonly<{
  runsOf(text: string, bold: boolean): readonly Run[];
  widthOf(text: string, style: TextStyle): number;
  /** Lines that are no wider than they may be, broken at spaces; a word that is wider by itself is broken anywhere. */
  linesOf(text: string, widthPt: number, style: TextStyle): readonly string[];
}>;

/** What a document does with type: each file once, as it is first needed. */
export type FontBook = Readonly<{
  register(name: string, bytes: Buffer): void;
  widthOf(font: string, sizePt: number, text: string): number;
}>;

const UNKNOWN = '?';
const MEASURED_AT_PT = 100;
const opened = new Map<string, Font>();

function openFont({ name, bytes }: TypeFile): Font {
  const known = opened.get(name);
  if (known !== undefined) return known;
  const font = create(bytes);
  if (!('hasGlyphForCodePoint' in font)) throw new Error(`${name} is a collection of fonts, not one`);
  opened.set(name, font);
  return font;
}

/** Text as this report's type has it. Letters that no file has become a question mark, so that nothing is lost unseen. */
export function createPdfType(book: FontBook): PdfType {
  const registered = new Set<string>();
  const lettersOf: Record<Weight, Map<string, string>> = { 400: new Map(), 700: new Map() };

  const use = (file: TypeFile): string => {
    if (!registered.has(file.name)) book.register(file.name, file.bytes);
    registered.add(file.name);
    return file.name;
  };
  const fontOf = (letter: string, weight: Weight): string | null => {
    const known = lettersOf[weight].get(letter);
    if (known !== undefined) return known === '' ? null : known;
    const point = letter.codePointAt(0) ?? 0;
    const file = typeFiles(weight).find((open) => openFont(open()).hasGlyphForCodePoint(point));
    const name = file === undefined ? '' : use(file());
    lettersOf[weight].set(letter, name);
    return name === '' ? null : name;
  };
  const runsOf = (text: string, bold: boolean): readonly Run[] => {
    const weight = bold ? 700 : 400;
    const runs: { font: string; text: string }[] = [];
    for (const letter of text.normalize('NFC').replace(/\p{Cc}/gu, ' ')) {
      const own = fontOf(letter, weight);
      const font = own ?? fontOf(UNKNOWN, weight);
      if (font === null) throw new Error('the type of the report has no letters');
      const last = runs.at(-1);
      const shown = own === null ? UNKNOWN : letter;
      if (last?.font === font) last.text += shown;
      else runs.push({ font, text: shown });
    }
    return runs;
  };
  /** Widths are measured once at one size: they grow with it. */
  const known = new Map<string, number>();
  const unitWidth = (text: string, bold: boolean): number => {
    const key = `${bold ? 'b' : 'r'}${text}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const width = runsOf(text, bold).reduce(
      (sum, run) => sum + book.widthOf(run.font, MEASURED_AT_PT, run.text) / MEASURED_AT_PT,
      0,
    );
    known.set(key, width);
    return width;
  };
  const widthOf = (text: string, { sizePt, bold }: TextStyle): number =>
    sizePt *
    text
      .split(' ')
      .reduce((sum, word, i) => sum + unitWidth(word, bold) + (i === 0 ? 0 : unitWidth(' ', bold)), 0);

  const pieces = (word: string, widthPt: number, style: TextStyle): readonly string[] => {
    if (widthOf(word, style) <= widthPt) return [word];
    const out: string[] = [];
    let piece = '';
    for (const letter of word) {
      if (piece !== '' && widthOf(piece + letter, style) > widthPt) {
        out.push(piece);
        piece = '';
      }
      piece += letter;
    }
    return piece === '' ? out : [...out, piece];
  };
  return {
    runsOf,
    widthOf,
    linesOf(text, widthPt, style) {
      const lines: string[] = [];
      let line = '';
      for (const word of text.split(/[ \n]+/).flatMap((one) => pieces(one, widthPt, style))) {
        const longer = line === '' ? word : `${line} ${word}`;
        if (line !== '' && widthOf(longer, style) > widthPt) {
          lines.push(line);
          line = word;
        } else line = longer;
      }
      return line === '' ? lines : [...lines, line];
    },
  };
}
