/**
 * A report before it is a page: blocks in reading order, said once and drawn twice, as HTML with inline SVG and as PDF.
 * Lengths are points, 72 to the inch; colours are named by what they mean.
 */

/** `found` is drawn dashed and `left` solid wherever they are lines, so that grey paper tells them apart too. */
export type Ink = 'ink' | 'soft' | 'hair' | 'band' | 'found' | 'good' | 'bad' | 'paper';

export type Point = readonly [xPt: number, yPt: number];

/** What a picture is made of; x to the right, y down, from its upper left corner. Nothing in it is a raster. */
export type Shape =
  | Readonly<{
      shape: 'line';
      points: readonly Point[];
      ink: Ink;
      widthPt: number;
      dashPt?: readonly number[];
    }>
  | Readonly<{ shape: 'area'; points: readonly Point[]; ink: Ink }>
  /** Filled boxes of one ink, drawn as one path: [x, y, width, height]. */
  | Readonly<{ shape: 'boxes'; boxes: readonly (readonly [number, number, number, number])[]; ink: Ink }>
  | Readonly<{ shape: 'dot'; xPt: number; yPt: number; radiusPt: number; ink: Ink; hollow: boolean }>
  | Readonly<{
      shape: 'words';
      xPt: number;
      /** Of the baseline. */
      yPt: number;
      text: string;
      sizePt: number;
      bold: boolean;
      align: 'start' | 'middle' | 'end';
      ink: Ink;
    }>;

export type Picture = Readonly<{ widthPt: number; heightPt: number; shapes: readonly Shape[] }>;

/** A verdict as it is drawn: a shape beside its word. */
export type Verdict = 'pass' | 'fail' | 'undecided';
export type Mark = Readonly<{ verdict: Verdict; pointing: 'up' | 'down' }>;

export type Cell = Readonly<{ text: string; bold?: boolean; soft?: boolean; mark?: Mark }>;
export type Column = Readonly<{
  title: string;
  align: 'start' | 'end';
  /** Its part of the table's width, beside the other columns' parts. */
  share: number;
}>;

export type Fact = Readonly<{ name: string; value: string; note?: string }>;

export type Block =
  | Readonly<{ block: 'heading'; text: string; level: 2 | 3 }>
  /** The finding in one sentence, and how sure it is. */
  | Readonly<{ block: 'finding'; lead: string; text: string; mark: Mark | null; word: string }>
  | Readonly<{ block: 'paragraph'; text: string; soft?: boolean }>
  | Readonly<{ block: 'list'; items: readonly string[] }>
  | Readonly<{ block: 'facts'; facts: readonly Fact[] }>
  | Readonly<{
      block: 'table';
      caption: string;
      columns: readonly Column[];
      rows: readonly (readonly Cell[])[];
      /** Said in place of rows where there are none. */
      empty?: string;
      /** `columns`: a long list of short rows, set smaller and on paper in two columns; `fine`: set smaller. */
      set?: 'columns' | 'fine';
    }>
  /** `words` says in text what the picture shows. */
  | Readonly<{ block: 'figure'; picture: Picture; caption: string; words: string }>
  /** What to be careful of, in a frame. */
  | Readonly<{ block: 'caution'; title: string; items: readonly string[]; last: string }>
  | Readonly<{ block: 'signatures'; names: readonly string[] }>
  /** What follows begins on a new page. */
  | Readonly<{ block: 'page' }>;

export type ReportDocument = Readonly<{
  kind: 'pages';
  /** Of the file: what a viewer shows in its title bar. */
  title: string;
  subject: string;
  /** BCP 47. */
  language: string;
  madeAt: string;
  masthead: Readonly<{ over: string; title: string; aside: readonly string[] }>;
  blocks: readonly Block[];
  /** At the foot of each page, before "page x of y". */
  foot: readonly string[];
}>;

/** Labels to be cut out: the same picture, as often as it is wanted. */
export type LabelDocument = Readonly<{
  kind: 'labels';
  title: string;
  subject: string;
  language: string;
  madeAt: string;
  picture: Picture;
  /** What it says, as text. */
  words: string;
  count: number;
}>;

export type Printable = ReportDocument | LabelDocument;

export type Paper = 'a4' | 'letter';
