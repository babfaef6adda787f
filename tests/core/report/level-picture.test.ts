import { expect, it } from 'vitest';
import { levelPicture, PICTURE_WIDTH_PT } from '../../../core/report/level-picture.ts';
import { judgedSweep } from '../../../core/report/port-view.ts';
import { reportedVisit } from '../../support/reported-visit.ts';

const [, found, left] = reportedVisit().sweeps;
if (found === undefined || left === undefined) throw new Error('no sweeps');
const both = [
  { name: 'as found', judged: judgedSweep(found, null) },
  { name: 'as left', judged: judgedSweep(left, null) },
];

it('draws before dashed and after solid, each named at its end', () => {
  const { shapes, widthPt } = levelPicture(both, 'dBmV');
  expect(widthPt).toBe(PICTURE_WIDTH_PT);
  const curves = shapes.filter(
    (shape) => shape.shape === 'line' && shape.points.length === found.rows.length,
  );
  expect(
    curves.some((curve) => curve.shape === 'line' && curve.dashPt !== undefined && curve.ink === 'found'),
  ).toBe(true);
  expect(
    curves.some((curve) => curve.shape === 'line' && curve.dashPt === undefined && curve.ink === 'ink'),
  ).toBe(true);
  const words = shapes.flatMap((shape) => (shape.shape === 'words' ? [shape.text] : []));
  for (const word of ['as found', 'as left', 'design \u00B11.0', 'dBmV', 'MHz', 'from design, dB'])
    expect(words).toContain(word);
});

it('keeps every part inside its box, in any unit', () => {
  for (const unit of ['dBmV', 'dBuV', 'dBm75', 'dBm50', 'mV'] as const) {
    const { shapes, heightPt } = levelPicture(both, unit);
    for (const shape of shapes) {
      const points = shape.shape === 'line' || shape.shape === 'area' ? shape.points : [];
      for (const [x, y] of points) {
        expect(x).toBeGreaterThanOrEqual(0);
        expect(x).toBeLessThanOrEqual(PICTURE_WIDTH_PT);
        expect(y).toBeGreaterThanOrEqual(0);
        expect(y).toBeLessThanOrEqual(heightPt);
      }
    }
  }
});

it('draws a port without levels as an empty chart', () => {
  const silent = { ...found, rows: found.rows.map((row) => ({ ...row, levelDbmv: null })) };
  const { shapes } = levelPicture([{ name: 'as found', judged: judgedSweep(silent, null) }], 'dBmV');
  expect(shapes.length).toBeGreaterThan(5);
});
