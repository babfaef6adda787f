import PDFDocument from 'pdfkit';
import type { Ink, Paper, Picture, Shape } from '../../../core/report/document.ts';
import { INKS } from '../../../core/report/html-picture.ts';
import { createPdfType, type PdfType, type TextStyle } from './pdf-type.ts';

/** One width of text on both papers: the margins take the difference. */
export const TEXT_WIDTH_PT = 482;
export const PAPERS_PT: Readonly<Record<Paper, readonly [number, number]>> = {
  a4: [595.28, 841.89],
  letter: [612, 792],
};
const TOP_PT = 44;
const BOTTOM_PT = 58;
/** Figures of one width stand under each other; the type has them. */
const FEATURES: PDFKit.Mixins.OpenTypeFeatures[] = ['tnum', 'kern'];

export type Pen = TextStyle & Readonly<{ ink: Ink }>;
type Structure = ReturnType<PDFKit.PDFDocument['struct']>;

/** A paper that is written from top to bottom, each piece tagged for those who have it read to them. */
export type PdfPaper = ReturnType<typeof createPaper>;

export type PaperFacts = Readonly<{ title: string; subject: string; language: string; madeAt: string }>;

export function createPaper(paper: Paper, facts: PaperFacts) {
  const [widthPt, heightPt] = PAPERS_PT[paper];
  const doc = new PDFDocument({
    size: [widthPt, heightPt],
    margin: 0,
    autoFirstPage: false,
    bufferPages: true,
    pdfVersion: '1.7',
    tagged: true,
    displayTitle: true,
    lang: facts.language,
    info: {
      Title: facts.title,
      Subject: facts.subject,
      Creator: 'Tiltwright',
      Producer: 'Tiltwright',
      CreationDate: new Date(facts.madeAt),
      ModDate: new Date(facts.madeAt),
    },
  });
  const chunks: Buffer[] = [];
  doc.on('data', (chunk: Buffer) => chunks.push(chunk));
  const ended = new Promise<Buffer>((resolve, reject) => {
    doc.on('end', () => resolve(Buffer.concat(chunks)));
    doc.on('error', reject);
  });
  const type: PdfType = createPdfType({
    register: (name, bytes) => {
      doc.registerFont(name, bytes);
    },
    widthOf: (font, sizePt, text) =>
      doc.font(font).fontSize(sizePt).widthOfString(text, { features: FEATURES }),
  });
  const root = doc.struct('Document');
  doc.addStructure(root);
  const leftPt = (widthPt - TEXT_WIDTH_PT) / 2;
  let yPt = 0;
  let pages = 0;

  const write = (text: string, xPt: number, baselinePt: number, pen: Pen): void => {
    let at = xPt;
    const runs = type.runsOf(text, pen.bold);
    for (const run of runs) {
      doc.font(run.font).fontSize(pen.sizePt).fillColor(INKS[pen.ink]);
      doc.text(run.text, at, baselinePt, { lineBreak: false, baseline: 'alphabetic', features: FEATURES });
      if (runs.length > 1) at += doc.widthOfString(run.text, { features: FEATURES });
    }
  };
  const drawShape = (shape: Shape): void => {
    const ink = INKS[shape.ink];
    switch (shape.shape) {
      case 'line': {
        const [first, ...rest] = shape.points;
        if (first === undefined) return;
        doc.lineWidth(shape.widthPt).lineJoin('round');
        if (shape.dashPt === undefined) doc.undash();
        else doc.dash(shape.dashPt[0] ?? 1, { space: shape.dashPt[1] ?? 1 });
        doc.moveTo(first[0], first[1]);
        for (const [x, y] of rest) doc.lineTo(x, y);
        doc.stroke(ink).undash();
        return;
      }
      case 'area': {
        const [first, ...rest] = shape.points;
        if (first === undefined) return;
        doc.moveTo(first[0], first[1]);
        for (const [x, y] of rest) doc.lineTo(x, y);
        doc.closePath().fill(ink);
        return;
      }
      case 'boxes':
        if (shape.boxes.length === 0) return;
        for (const [x, y, w, h] of shape.boxes) doc.rect(x, y, w, h);
        doc.fill(ink);
        return;
      case 'dot':
        doc.circle(shape.xPt, shape.yPt, shape.radiusPt).lineWidth(1.2);
        doc.fillAndStroke(shape.hollow ? INKS.paper : ink, ink);
        return;
      case 'words': {
        const pen = { sizePt: shape.sizePt, bold: shape.bold, ink: shape.ink };
        const wide = shape.align === 'start' ? 0 : type.widthOf(shape.text, pen);
        write(shape.text, shape.xPt - (shape.align === 'end' ? wide : wide / 2), shape.yPt, pen);
        return;
      }
    }
  };
  const draw = ({ shapes }: Picture, xPt: number, topPt: number, scale = 1): void => {
    doc.save().translate(xPt, topPt).scale(scale);
    for (const shape of shapes) drawShape(shape);
    doc.restore();
  };
  const newPage = (): void => {
    doc.addPage();
    pages += 1;
    yPt = TOP_PT;
  };
  /** What is on the page for the eye alone. */
  const artifact = (act: () => void, kind: 'Layout' | 'Pagination' = 'Layout'): void => {
    doc.markContent('Artifact', { type: kind });
    act();
    doc.endMarkedContent();
  };
  /** One piece of content under a tag. */
  const piece = (under: Structure, tag: string, act: () => void): void => {
    const content = doc.markStructureContent(tag);
    act();
    doc.endMarkedContent();
    under.add(content);
  };
  const tag = (
    under: Structure,
    name: string,
    options: Readonly<Record<string, unknown>> = {},
  ): Structure => {
    const made = doc.struct(name, options);
    under.add(made);
    return made;
  };

  return {
    doc,
    type,
    root,
    leftPt,
    widthPt,
    heightPt,
    write,
    draw,
    artifact,
    piece,
    tag,
    newPage,
    y: (): number => yPt,
    down(byPt: number): void {
      yPt += byPt;
    },
    isAtTop: (): boolean => yPt <= TOP_PT,
    /** How much of this page is left. */
    room: (): number => heightPt - BOTTOM_PT - yPt,
    /** Begins a new page where less than this is left. True when it did. */
    need(roomPt: number): boolean {
      if (pages > 0 && (yPt + roomPt <= heightPt - BOTTOM_PT || yPt <= TOP_PT)) return false;
      newPage();
      return true;
    },
    rule(fromPt: number, toPt: number, atPt: number, thickPt: number, ink: Ink): void {
      artifact(() => {
        doc.lineWidth(thickPt).undash().moveTo(fromPt, atPt).lineTo(toPt, atPt).stroke(INKS[ink]);
      });
    },
    async end(
      footOf: ((page: number, pages: number) => Readonly<{ left: readonly string[]; right: string }>) | null,
    ) {
      root.end();
      if (footOf !== null)
        for (let i = 0; i < pages; i++) {
          doc.switchToPage(i);
          const { left, right } = footOf(i + 1, pages);
          const pen = { sizePt: 7, bold: false, ink: 'soft' } as const;
          artifact(() => {
            const endPt = leftPt + TEXT_WIDTH_PT;
            left.forEach((text, k) => {
              const [line = ''] = type.linesOf(text, TEXT_WIDTH_PT - 70, pen);
              write(line, leftPt, heightPt - 36 + k * 9.5, pen);
            });
            write(right, endPt - type.widthOf(right, pen), heightPt - 36, pen);
          }, 'Pagination');
        }
      doc.end();
      return new Uint8Array(await ended);
    },
  };
}
