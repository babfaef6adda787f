import jsQR from 'jsqr';
import { expect, it } from 'vitest';
import type { Shape } from '../../../core/report/document.ts';
import { identityText, labelDocument } from '../../../core/report/label.ts';
import { codeOf } from '../../../electron/backend/report/code.ts';
import { reportPdf } from '../../../electron/backend/report/pdf.ts';
import { plainly, readPdf } from '../../support/pdf-text.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const visit = reportedVisit();
const frame = reportFrame();
const label = labelDocument(visit, frame, codeOf(identityText(visit, frame)), 7);

/** The label's boxes as a camera sees them: white paper, black boxes, so many pixels a point. */
function photographed(shapes: readonly Shape[], widthPt: number, heightPt: number, scale: number) {
  const [width, height] = [Math.ceil(widthPt * scale), Math.ceil(heightPt * scale)];
  const pixels = new Uint8ClampedArray(width * height * 4).fill(255);
  for (const shape of shapes) {
    if (shape.shape !== 'boxes') continue;
    for (const [x, y, w, h] of shape.boxes)
      for (let j = Math.round(y * scale); j < Math.round((y + h) * scale); j++)
        for (let i = Math.round(x * scale); i < Math.round((x + w) * scale); i++)
          pixels.fill(0, (j * width + i) * 4, (j * width + i) * 4 + 3);
  }
  return { pixels, width, height };
}

it('carries a code that another program reads as the identity of the record', () => {
  const { widthPt, heightPt, shapes } = label.picture;
  const { pixels, width, height } = photographed(shapes, widthPt, heightPt, 6);
  expect(jsQR(pixels, width, height)?.data).toBe(identityText(visit, frame));
});

it('prints as many as are wanted, several to a sheet', async () => {
  const { pages } = await readPdf(await reportPdf(label, 'letter'));
  expect(pages).toHaveLength(1);
  expect(plainly(pages[0]?.text ?? '').match(/07 Mill Lane/g)).toHaveLength(7);
  expect(pages[0]?.images).toBe(0);
  const many = await readPdf(await reportPdf({ ...label, count: 40 }, 'a4'));
  expect(many.pages.length).toBeGreaterThan(1);
});
