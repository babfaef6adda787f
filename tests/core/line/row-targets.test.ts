import { expect, it } from 'vitest';
import type { Design } from '../../../core/files/station.ts';
import { rowTargets } from '../../../core/line/row-targets.ts';
import { standingAgainstDesign } from '../../../core/line/standing.ts';

const design: Design = {
  ...{ lowMhz: 100, lowDbmv: 36, highMhz: 300, highDbmv: 46, shape: 'linear' },
  ...{ toleranceDb: 1, flatnessDb: 2.5 },
};
const rows = [
  { frequencyMhz: 300, levelDbmv: 40.5, modulation: '256QAM' },
  { frequencyMhz: 100, levelDbmv: 36, kind: 'analog' as const },
  { frequencyMhz: 200, levelDbmv: 41, kind: 'analog' as const },
  { frequencyMhz: 400, levelDbmv: 41, kind: 'analog' as const },
  { frequencyMhz: 250, levelDbmv: null },
];

it('gives each row the target of its own kind, in the order of the rows', () => {
  expect(rowTargets(rows, design)).toEqual([
    { targetDbmv: 40, deviationDb: 0.5, signal: '256-QAM' },
    { targetDbmv: 36, deviationDb: 0, signal: 'analog' },
    { targetDbmv: 41, deviationDb: 0, signal: 'analog' },
    null,
    null,
  ]);
});
it('is what the standing is judged by', () => {
  expect(standingAgainstDesign(rows, design)).toMatchObject({
    ok: true,
    value: {
      verdict: 'pass',
      worst: { frequencyMhz: 300, deviationDb: 0.5 },
      signals: { reference: 'analog' },
    },
  });
});
it('with all rows as they stand compares with the design line itself', () => {
  expect(rowTargets(rows, design, { keepAll: true })[0]).toMatchObject({ targetDbmv: 46, deviationDb: -5.5 });
  const lineUp = [
    { channelLabel: 'x', frequencyMhz: 300, kind: 'qam' as const, widthMhz: 6, offsetDb: -5.5 },
  ];
  expect(rowTargets(rows, design, { lineUp })[0]).toMatchObject({ targetDbmv: 40.5, deviationDb: 0 });
});
