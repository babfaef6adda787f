import type { Block, Cell } from '../../../core/report/document.ts';
import { markShapes } from '../../../core/report/marks.ts';
import { drawColumns } from './pdf-columns.ts';
import { type PdfPaper, type Pen, TEXT_WIDTH_PT } from './pdf-paper.ts';

type Table = Extract<Block, { block: 'table' }>;

const GAP_PT = 7;
const VERDICT_INK = { pass: 'good', fail: 'bad', undecided: 'ink' } as const;

type Sized = Readonly<{ sizePt: number; leadPt: number; padPt: number }>;
const USUAL: Sized = { sizePt: 8.6, leadPt: 11.2, padPt: 3 };
const FINE: Sized = { sizePt: 7.2, leadPt: 9, padPt: 2 };

const penOf = (cell: Cell, sizePt: number): Pen => ({
  sizePt,
  bold: cell.bold === true || cell.mark !== undefined,
  ink: cell.mark !== undefined ? VERDICT_INK[cell.mark.verdict] : cell.soft === true ? 'soft' : 'ink',
});

/** A table over as many pages as it takes; its head is repeated, and a row is never cut in two. */
export function drawTable(paper: PdfPaper, table: Table): void {
  const { columns, rows, caption, set, empty } = table;
  const { type } = paper;
  const soft: Pen = { sizePt: 8, bold: false, ink: 'soft' };
  if (rows.length === 0) {
    paper.need(20);
    const said = paper.tag(paper.root, 'P');
    paper.piece(said, 'P', () =>
      paper.write(`${caption}: ${empty ?? 'none.'}`, paper.leftPt, paper.y() + 9, soft),
    );
    said.end();
    paper.down(16);
    return;
  }
  if (set === 'columns') {
    drawColumns(paper, table);
    return;
  }
  const size = set === 'fine' ? FINE : USUAL;
  const shares = columns.reduce((sum, { share }) => sum + share, 0);
  let edgePt = paper.leftPt;
  const places = columns.map(({ share }) => {
    const leftPt = edgePt;
    const widthPt = (TEXT_WIDTH_PT * share) / shares;
    edgePt += widthPt;
    return { leftPt, widthPt: widthPt - GAP_PT };
  });
  const structure = paper.tag(paper.root, 'Table', { title: caption });

  const row = (
    cells: readonly Cell[],
    tag: 'TH' | 'TD',
    headAgain: (() => void) | null,
    artifact: boolean,
  ): void => {
    const laid = cells.map((cell, i) => {
      const place = places[i] ?? { leftPt: paper.leftPt, widthPt: TEXT_WIDTH_PT };
      const pen: Pen = tag === 'TH' ? { sizePt: 7.6, bold: true, ink: 'ink' } : penOf(cell, size.sizePt);
      const indentPt = cell.mark === undefined ? 0 : size.sizePt + 3;
      const lines = cell.text === '' ? [] : type.linesOf(cell.text, place.widthPt - indentPt, pen);
      return { cell, place, pen, indentPt, lines };
    });
    const most = Math.max(1, ...laid.map(({ lines }) => lines.length));
    const heightPt = most * size.leadPt + 2 * size.padPt;
    if (paper.need(heightPt + 2)) headAgain?.();
    const top = paper.y() + size.padPt;
    const tr = artifact ? null : paper.tag(structure, 'TR');
    laid.forEach(({ cell, place, pen, indentPt, lines }, i) => {
      const end = columns[i]?.align === 'end';
      const drawn = () =>
        lines.forEach((line, k) => {
          const x = end ? place.leftPt + place.widthPt - type.widthOf(line, pen) : place.leftPt + indentPt;
          // A head of one line stands beside the last line of a head of two.
          const down = tag === 'TH' ? most - lines.length : 0;
          paper.write(line, x, top + (k + down) * size.leadPt + size.sizePt * 0.98, pen);
        });
      if (cell.mark !== undefined) {
        const shapes = markShapes(cell.mark);
        paper.artifact(() =>
          paper.draw({ widthPt: 20, heightPt: 20, shapes }, place.leftPt, top + 0.8, size.sizePt / 20),
        );
      }
      if (tr === null) paper.artifact(drawn);
      else {
        const box = paper.tag(tr, tag, tag === 'TH' ? { scope: 'Column' } : {});
        paper.piece(box, tag, drawn);
        box.end();
      }
    });
    tr?.end();
    paper.down(heightPt);
    paper.rule(
      paper.leftPt,
      paper.leftPt + TEXT_WIDTH_PT,
      paper.y(),
      tag === 'TH' ? 0.9 : 0.35,
      tag === 'TH' ? 'ink' : 'hair',
    );
  };

  paper.need(64);
  paper.down(5);
  const named = paper.tag(structure, 'Caption');
  paper.piece(named, 'Caption', () => paper.write(caption, paper.leftPt, paper.y() + 8, soft));
  named.end();
  paper.down(11);
  const head = columns.map(({ title }) => ({ text: title }));
  row(head, 'TH', null, false);
  // On a further page the head is for the eye: a reader's ear has heard it.
  for (const cells of rows) row(cells, 'TD', () => row(head, 'TH', null, true), false);
  structure.end();
  paper.down(7);
}
