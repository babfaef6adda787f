import { expect, it } from 'vitest';
import { identityText, LABEL_MM, labelDocument } from '../../../core/report/label.ts';
import { reportedVisit, reportFrame } from '../../support/reported-visit.ts';

const visit = reportedVisit();
const frame = reportFrame();

it('carries the visit and the head of the chain, or the data where there is none', () => {
  expect(identityText(visit, frame)).toBe(`tiltwright:visit:${visit.visitId}?head=${frame.head?.hash}`);
  expect(identityText(visit, { ...frame, head: null })).toContain(`?data=${frame.dataSha256}`);
});

it('says what is fitted, when, by whom, and the levels at both ends, inside its size', () => {
  const { picture, words, count } = labelDocument(
    visit,
    frame,
    [
      [true, false],
      [false, true],
    ],
    6,
  );
  expect(count).toBe(6);
  expect(picture.widthPt).toBeCloseTo((LABEL_MM.width / 25.4) * 72, 6);
  for (const word of [
    '07 Mill Lane',
    '2\u00A0March 2026',
    'P. Ferreira',
    'Input equalizer 14',
    'at 54',
    'at 870',
  ])
    expect(words).toContain(word);
  for (const shape of picture.shapes)
    if (shape.shape === 'words') {
      expect(shape.yPt).toBeLessThan(picture.heightPt);
      expect(shape.xPt).toBeLessThan(picture.widthPt);
    }
});
