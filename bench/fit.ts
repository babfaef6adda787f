import { SimpleLinearRegression } from 'ml-regression-simple-linear';
import { linearRegression } from 'simple-statistics';
import { fitLine } from '../core/line/fit-line.ts';
import { fitSweep } from '../core/line/fit-sweep.ts';
import { type BenchRow, mediansMs } from './timing.ts';

const rows = Array.from({ length: 158 }, (_, i) => ({
  frequencyMhz: 57 + 6 * i,
  levelDbmv: Math.round(10 * (36 + i / 16 + 0.4 * Math.sin(i))) / 10,
}));
/** Eight channels without a carrier; and half of the sweep 64-QAM, 4 dB down. */
const gone = rows.map((row, i) => (i % 20 === 7 ? { ...row, levelDbmv: -20 } : row));
const mixed = rows.map((row, i) => ({
  ...row,
  levelDbmv: row.levelDbmv - (i >= 79 ? 4 : 0),
  modulation: i >= 79 ? '64QAM' : '256QAM',
}));
const position = rows.map((row) => (row.frequencyMhz - 57) / 942);
const levels = rows.map((row) => row.levelDbmv);
const pairs = () => position.map((x, i) => [x, levels[i] ?? 0]);

/** Least squares as one would write it first: five sums. */
function plainLine(): number {
  const sum = (of: (x: number, y: number) => number) =>
    position.reduce((total, x, i) => total + of(x, levels[i] ?? 0), 0);
  const n = position.length;
  const sx = sum((x) => x);
  return (n * sum((x, y) => x * y) - sx * sum((_x, y) => y)) / (n * sum((x) => x * x) - sx ** 2);
}

/** One level moves each time, so that no answer can be kept from before. */
let turn = 0;
const moved = () => {
  levels[turn % levels.length] = 36 + (turn++ % 7);
};

/** The fit of 158 channels, against plain least squares and two libraries in the same run. */
export function fitBench(): BenchRow[] {
  const ours = fitLine(position, levels);
  const theirs = new SimpleLinearRegression(position, levels);
  if (!ours.ok || Math.abs(ours.value.tiltDb - theirs.slope) > 1e-9)
    throw new Error('two lines of the same rows differ');
  const things = [
    ['plain least squares', plainLine],
    ['simple-statistics linearRegression', () => linearRegression(pairs())],
    ['ml-regression-simple-linear', () => new SimpleLinearRegression(position, levels).slope],
    ['fitLine, 158 channels', () => fitLine(position, levels)],
    ['fitSweep, every row kept', () => fitSweep(rows, { keepAll: true })],
    ['fitSweep, rows screened', () => fitSweep(rows, {})],
    ['fitSweep, screened, 8 carriers missing', () => fitSweep(gone, {})],
    ['fitSweep, screened, two QAM orders', () => fitSweep(mixed, {})],
  ] as const;
  const medians = mediansMs(
    2000,
    ...things.map(([, thing]) => () => {
      moved();
      return thing();
    }),
  );
  const plain = medians[0] ?? Number.NaN;
  const against = things[0][0];
  return things.map(([what], i) => ({
    ...{ what, against },
    medianMs: medians[i] ?? Number.NaN,
    ratio: (medians[i] ?? Number.NaN) / plain,
  }));
}
