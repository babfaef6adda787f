import { fitLine } from '../core/line/fit-line.ts';
import { fitSweep } from '../core/line/fit-sweep.ts';
import { type BenchRow, mediansMs } from './timing.ts';

const rows = Array.from({ length: 158 }, (_, i) => ({
  frequencyMhz: 57 + 6 * i,
  levelDbmv: 36 + i / 16 + 0.4 * Math.sin(i),
}));
const position = rows.map((row) => (row.frequencyMhz - 57) / 942);
const levels = rows.map((row) => row.levelDbmv);

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
function lineOf() {
  levels[turn % levels.length] = 36 + (turn++ % 7);
  return fitLine(position, levels);
}

/** The fit of 158 channels, against plain least squares in the same run. */
export function fitBench(): BenchRow[] {
  const [plain = 0, line = 0, kept = 0, screened = 0] = mediansMs(
    2000,
    plainLine,
    () => lineOf(),
    () => fitSweep(rows, { keepAll: true }),
    () => fitSweep(rows, {}),
  );
  const against = 'plain least squares';
  return [
    { what: against, medianMs: plain, against, ratio: 1 },
    { what: 'fitLine, 158 channels', medianMs: line, against, ratio: line / plain },
    { what: 'fitSweep, every row kept', medianMs: kept, against, ratio: kept / plain },
    { what: 'fitSweep, rows screened', medianMs: screened, against, ratio: screened / plain },
  ];
}
