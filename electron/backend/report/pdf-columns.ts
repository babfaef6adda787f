import type { Block } from '../../../core/report/document.ts';
import { type PdfPaper, type Pen, TEXT_WIDTH_PT } from './pdf-paper.ts';

type Table = Extract<Block, { block: 'table' }>;

const BETWEEN_PT = 24;
const GAP_PT = 5;
const ROW_PT = 11;
const HEAD_LEAD_PT = 9;
const FEWEST_ROWS = 6;
const HEAD: Pen = { sizePt: 7.2, bold: true, ink: 'ink' };

/** A long list of short rows: down the left half of a page, then down the right, then on the next. Rows have one line. */
export function drawColumns(paper: PdfPaper, { columns, rows, caption }: Table): void {
  const { type } = paper;
  const halfPt = (TEXT_WIDTH_PT - BETWEEN_PT) / 2;
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  let fromPt = 0;
  const places = columns.map(({ share, align }) => {
    const leftPt = fromPt;
    fromPt += (halfPt * share) / shares;
    return { leftPt, widthPt: fromPt - leftPt - GAP_PT, end: align === 'end' };
  });
  const heads = columns.map(({ title }, i) => type.linesOf(title, places[i]?.widthPt ?? halfPt, HEAD));
  const headLines = Math.max(1, ...heads.map((lines) => lines.length));
  const headPt = headLines * HEAD_LEAD_PT + 4;
  const soft: Pen = { sizePt: 8, bold: false, ink: 'soft' };
  const placed = (text: string, i: number, originPt: number, pen: Pen): number => {
    const place = places[i] ?? { leftPt: 0, widthPt: halfPt, end: false };
    return originPt + place.leftPt + (place.end ? place.widthPt - type.widthOf(text, pen) : 0);
  };
  const head = (originPt: number, topPt: number): void => {
    heads.forEach((lines, i) => {
      lines.forEach((line, k) => {
        const y = topPt + (headLines - lines.length + k) * HEAD_LEAD_PT + 7;
        paper.write(line, placed(line, i, originPt, HEAD), y, HEAD);
      });
    });
  };

  paper.need(24 + headPt + FEWEST_ROWS * ROW_PT);
  paper.down(5);
  const structure = paper.tag(paper.root, 'Table', { title: caption });
  const named = paper.tag(structure, 'Caption');
  paper.piece(named, 'Caption', () => paper.write(caption, paper.leftPt, paper.y() + 8, soft));
  named.end();
  paper.down(13);
  // Said once to the ear; the eye has the titles over each half.
  const titles = paper.tag(structure, 'TR');
  columns.forEach(({ title }) => {
    const box = paper.tag(titles, 'TH', { scope: 'Column', actual: title });
    paper.piece(box, 'TH', () => undefined);
    box.end();
  });
  titles.end();

  for (let at = 0; at < rows.length; ) {
    if (at > 0) paper.newPage();
    const perColumn = Math.max(1, Math.floor((paper.room() - headPt - 4) / ROW_PT));
    const count = Math.min(rows.length - at, 2 * perColumn);
    const inLeft = Math.min(perColumn, Math.ceil(count / 2));
    const topPt = paper.y();
    for (const [first, last, originPt] of [
      [at, at + inLeft, paper.leftPt],
      [at + inLeft, at + count, paper.leftPt + halfPt + BETWEEN_PT],
    ] as const) {
      if (first >= last) continue;
      paper.artifact(() => head(originPt, topPt));
      paper.rule(originPt, originPt + halfPt, topPt + headPt - 1, 0.9, 'ink');
      rows.slice(first, last).forEach((cells, k) => {
        const rowTop = topPt + headPt + k * ROW_PT;
        const tr = paper.tag(structure, 'TR');
        cells.forEach((cell, i) => {
          const pen: Pen = {
            sizePt: 7.8,
            bold: cell.bold === true,
            ink: cell.soft === true ? 'soft' : 'ink',
          };
          const [line = ''] = type.linesOf(cell.text, (places[i]?.widthPt ?? halfPt) + GAP_PT, pen);
          const box = paper.tag(tr, 'TD');
          paper.piece(box, 'TD', () => paper.write(line, placed(line, i, originPt, pen), rowTop + 8, pen));
          box.end();
        });
        tr.end();
        paper.rule(originPt, originPt + halfPt, rowTop + ROW_PT - 0.4, 0.3, 'hair');
      });
    }
    paper.down(headPt + inLeft * ROW_PT + 6);
    at += count;
  }
  structure.end();
  paper.down(6);
}
