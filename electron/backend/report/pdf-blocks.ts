import type { Block, ReportDocument } from '../../../core/report/document.ts';
import { INKS } from '../../../core/report/html-picture.ts';
import { markShapes } from '../../../core/report/marks.ts';
import { type PdfPaper, type Pen, TEXT_WIDTH_PT } from './pdf-paper.ts';
import { drawTable } from './pdf-table.ts';

const BODY: Pen = { sizePt: 9.5, bold: false, ink: 'ink' };
const SOFT: Pen = { ...BODY, sizePt: 8.6, ink: 'soft' };
const SMALL: Pen = { sizePt: 8, bold: false, ink: 'soft' };
const VERDICT_INK = { pass: 'good', fail: 'bad', undecided: 'ink' } as const;

/** Lines under one tag, over as many pages as they take. */
function drawLines(
  paper: PdfPaper,
  tag: string,
  text: string,
  pen: Pen,
  where: Readonly<{ indentPt?: number; widthPt?: number; leadPt?: number }> = {},
): void {
  const { indentPt = 0, widthPt = TEXT_WIDTH_PT - indentPt, leadPt = pen.sizePt * 1.38 } = where;
  const structure = paper.tag(paper.root, tag);
  for (const line of paper.type.linesOf(text, widthPt, pen)) {
    paper.need(leadPt);
    paper.piece(structure, tag, () =>
      paper.write(line, paper.leftPt + indentPt, paper.y() + pen.sizePt, pen),
    );
    paper.down(leadPt);
  }
  structure.end();
}

/** Two columns of names and values, pairs on one height. */
function drawFacts(paper: PdfPaper, { facts }: Extract<Block, { block: 'facts' }>): void {
  const gapPt = 22;
  const columnPt = (TEXT_WIDTH_PT - gapPt) / 2;
  const namePt = 58;
  const value: Pen = { sizePt: 9, bold: false, ink: 'ink' };
  const lists = paper.tag(paper.root, 'L');
  const laid = facts.map((fact) => ({
    ...fact,
    lines: paper.type.linesOf(fact.value, columnPt - namePt, value),
    notes: fact.note === undefined ? [] : paper.type.linesOf(fact.note, columnPt - namePt, SMALL),
  }));
  paper.rule(paper.leftPt, paper.leftPt + TEXT_WIDTH_PT, paper.y(), 0.35, 'hair');
  for (let i = 0; i < laid.length; i += 2) {
    const pair = laid.slice(i, i + 2);
    const heightPt = Math.max(...pair.map(({ lines, notes }) => lines.length * 12 + notes.length * 10.4)) + 5;
    paper.need(heightPt);
    const top = paper.y();
    pair.forEach(({ name, lines, notes }, k) => {
      const x = paper.leftPt + k * (columnPt + gapPt);
      const item = paper.tag(lists, 'LI');
      const label = paper.tag(item, 'Lbl');
      paper.piece(label, 'Lbl', () => paper.write(name, x, top + 11.5, { ...value, ink: 'soft' }));
      label.end();
      const body = paper.tag(item, 'LBody');
      paper.piece(body, 'LBody', () => {
        lines.forEach((line, n) => {
          paper.write(line, x + namePt, top + 11.5 + n * 12, value);
        });
        notes.forEach((line, n) => {
          paper.write(line, x + namePt, top + 10.5 + lines.length * 12 + n * 10.4, SMALL);
        });
      });
      body.end();
      item.end();
      paper.rule(x, x + columnPt, top + heightPt, 0.35, 'hair');
    });
    paper.down(heightPt);
  }
  lists.end();
  paper.down(8);
}

function drawFinding(paper: PdfPaper, block: Extract<Block, { block: 'finding' }>): void {
  const large: Pen = { sizePt: 20, bold: true, ink: 'ink' };
  const lines = paper.type.linesOf(block.text, TEXT_WIDTH_PT, large);
  paper.need(30 + lines.length * 23);
  drawLines(paper, 'P', block.lead, { ...SMALL, sizePt: 9 });
  paper.down(1);
  drawLines(paper, 'P', block.text, large, { leadPt: 23 });
  if (block.mark !== null) {
    const { mark } = block;
    const shapes = markShapes(mark);
    paper.artifact(() =>
      paper.draw({ widthPt: 20, heightPt: 20, shapes }, paper.leftPt, paper.y() + 2.2, 0.5),
    );
    const pen: Pen = { sizePt: 10, bold: true, ink: VERDICT_INK[mark.verdict] };
    drawLines(paper, 'P', block.word, pen, { indentPt: 14 });
  }
  paper.down(8);
}

function drawCaution(paper: PdfPaper, block: Extract<Block, { block: 'caution' }>): void {
  const pen: Pen = { sizePt: 8.6, bold: false, ink: 'ink' };
  const padPt = 9;
  const widthPt = TEXT_WIDTH_PT - 2 * padPt;
  const texts = [
    { text: block.title, pen: { ...pen, bold: true } },
    ...block.items.map((text) => ({ text, pen })),
    { text: block.last, pen: { ...pen, bold: true } },
  ];
  const lineCount = texts.reduce(
    (sum, one) => sum + paper.type.linesOf(one.text, widthPt, one.pen).length,
    0,
  );
  const heightPt = lineCount * 12 + 2 * padPt;
  paper.down(10);
  paper.need(heightPt);
  const top = paper.y();
  paper.artifact(() => {
    paper.doc.lineWidth(1.1).undash().rect(paper.leftPt, top, TEXT_WIDTH_PT, heightPt).stroke(INKS.ink);
  });
  paper.down(padPt);
  for (const one of texts) drawLines(paper, 'P', one.text, one.pen, { indentPt: padPt, widthPt, leadPt: 12 });
  paper.down(padPt + 6);
}

function drawSignatures(paper: PdfPaper, names: readonly string[]): void {
  const gapPt = 26;
  const widthPt = (TEXT_WIDTH_PT - gapPt * (names.length - 1)) / Math.max(1, names.length);
  paper.need(64);
  paper.down(40);
  const top = paper.y();
  names.forEach((name, i) => {
    const x = paper.leftPt + i * (widthPt + gapPt);
    paper.rule(x, x + widthPt, top, 0.8, 'ink');
    const structure = paper.tag(paper.root, 'P');
    paper.piece(structure, 'P', () => paper.write(`${name}, date, signature`, x, top + 10, SMALL));
    structure.end();
  });
  paper.down(22);
}

export function drawMasthead(paper: PdfPaper, { masthead }: ReportDocument): void {
  const { leftPt } = paper;
  const right = leftPt + TEXT_WIDTH_PT;
  const over: Pen = { sizePt: 9, bold: false, ink: 'soft' };
  const title: Pen = { sizePt: 21, bold: true, ink: 'ink' };
  const top = paper.y();
  const said = paper.tag(paper.root, 'P');
  paper.piece(said, 'P', () => paper.write(masthead.over, leftPt, top + 9, over));
  said.end();
  const lines = paper.type.linesOf(masthead.title, TEXT_WIDTH_PT - 130, title);
  const heading = paper.tag(paper.root, 'H1');
  paper.piece(heading, 'H1', () => {
    lines.forEach((line, i) => {
      paper.write(line, leftPt, top + 31 + i * 23, title);
    });
  });
  heading.end();
  const bottom = top + 31 + (lines.length - 1) * 23;
  const aside = paper.tag(paper.root, 'P');
  paper.piece(aside, 'P', () => {
    masthead.aside.forEach((line, i) => {
      const y = bottom - (masthead.aside.length - 1 - i) * 12;
      paper.write(line, right - paper.type.widthOf(line, over), y, over);
    });
  });
  aside.end();
  paper.rule(leftPt, right, bottom + 8, 2.2, 'ink');
  paper.down(bottom + 8 - top + 12);
}

/** One block at the place where the paper stands; it goes on to new pages by itself. */
export function drawBlock(paper: PdfPaper, block: Block): void {
  switch (block.block) {
    case 'heading':
      if (block.level === 2) {
        paper.need(90);
        if (!paper.isAtTop()) paper.down(10);
        paper.rule(paper.leftPt, paper.leftPt + TEXT_WIDTH_PT, paper.y(), 1.2, 'ink');
        paper.down(7);
        drawLines(paper, 'H2', block.text, { sizePt: 13, bold: true, ink: 'ink' });
      } else {
        paper.need(60);
        paper.down(6);
        drawLines(paper, 'H3', block.text, { sizePt: 10, bold: true, ink: 'ink' });
      }
      paper.down(2);
      return;
    case 'finding':
      drawFinding(paper, block);
      return;
    case 'paragraph':
      drawLines(paper, 'P', block.text, block.soft === true ? SOFT : BODY);
      paper.down(3);
      return;
    case 'list': {
      for (const item of block.items) {
        paper.need(BODY.sizePt * 1.38);
        const y = paper.y();
        paper.artifact(() => paper.write('\u2013', paper.leftPt, y + 9, SOFT));
        drawLines(paper, 'P', item, { ...SOFT, ink: 'ink' }, { indentPt: 11 });
      }
      paper.down(4);
      return;
    }
    case 'facts':
      drawFacts(paper, block);
      return;
    case 'table':
      drawTable(paper, block);
      return;
    case 'figure': {
      const { picture, words, caption } = block;
      const scale = Math.min(1, TEXT_WIDTH_PT / picture.widthPt);
      paper.need(picture.heightPt * scale + 26);
      const top = paper.y();
      const bbox = [
        paper.leftPt,
        top,
        paper.leftPt + picture.widthPt * scale,
        top + picture.heightPt * scale,
      ];
      const figure = paper.tag(paper.root, 'Figure', { alt: words, bbox, placement: 'Block' });
      paper.piece(figure, 'Figure', () => paper.draw(picture, paper.leftPt, top, scale));
      figure.end();
      paper.down(picture.heightPt * scale + 2);
      drawLines(paper, 'P', caption, SMALL);
      paper.down(5);
      return;
    }
    case 'caution':
      drawCaution(paper, block);
      return;
    case 'signatures':
      drawSignatures(paper, block.names);
      return;
    case 'page':
      if (!paper.isAtTop()) paper.newPage();
      return;
  }
}
