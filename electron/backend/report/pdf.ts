import { setImmediate as turn } from 'node:timers/promises';
import type { LabelDocument, Paper, Printable, ReportDocument } from '../../../core/report/document.ts';
import { drawBlock, drawMasthead } from './pdf-blocks.ts';
import { createPaper, type PdfPaper } from './pdf-paper.ts';

/** So long one stretch of drawing may keep the readings of a running sweep waiting. */
const PORTION_MS = 10;

async function pagesOf(paper: PdfPaper, report: ReportDocument, signal: AbortSignal): Promise<Uint8Array> {
  paper.newPage();
  drawMasthead(paper, report);
  let since = performance.now();
  for (const block of report.blocks) {
    drawBlock(paper, block);
    signal.throwIfAborted();
    if (performance.now() - since < PORTION_MS) continue;
    await turn();
    since = performance.now();
  }
  return await paper.end((page, pages) => ({ left: report.foot, right: `page ${page} of ${pages}` }));
}

/** As many labels on a sheet as it holds, with marks to cut along. */
async function labelsOf(paper: PdfPaper, labels: LabelDocument): Promise<Uint8Array> {
  const { picture, count, words } = labels;
  const gapPt = 8;
  const marginPt = 28;
  const across = Math.max(1, Math.floor((paper.widthPt - 2 * marginPt + gapPt) / (picture.widthPt + gapPt)));
  const down = Math.max(1, Math.floor((paper.heightPt - 2 * marginPt + gapPt) / (picture.heightPt + gapPt)));
  for (let i = 0; i < count; i++) {
    const place = i % (across * down);
    if (place === 0) paper.newPage();
    const x = marginPt + (place % across) * (picture.widthPt + gapPt);
    const y = marginPt + Math.floor(place / across) * (picture.heightPt + gapPt);
    paper.artifact(() => {
      paper.doc.lineWidth(0.3).dash(2, { space: 2 });
      paper.doc.rect(x, y, picture.widthPt, picture.heightPt).stroke('#6c737a').undash();
    });
    const bbox = [x, y, x + picture.widthPt, y + picture.heightPt];
    const figure = paper.tag(paper.root, 'Figure', { alt: words, bbox, placement: 'Block' });
    paper.piece(figure, 'Figure', () => paper.draw(picture, x, y));
    figure.end();
  }
  return await paper.end(null);
}

/**
 * A report as PDF: vectors and embedded type, tagged, in portions so that a sweep that is read meanwhile goes on. The
 * same bytes for the same document: its date is the document's own.
 * @throws  the signal's reason when it is aborted
 */
export async function reportPdf(
  printable: Printable,
  paper: Paper,
  signal: AbortSignal = new AbortController().signal,
): Promise<Uint8Array> {
  const sheet = createPaper(paper, printable);
  switch (printable.kind) {
    case 'pages':
      return await pagesOf(sheet, printable, signal);
    case 'labels':
      return await labelsOf(sheet, printable);
  }
}
