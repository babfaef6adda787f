import { fitBench } from './fit.ts';
import { proposeBench } from './propose.ts';
import type { BenchRow } from './timing.ts';

const table = (title: string, rows: readonly BenchRow[]): void => {
  console.log(`\n${title} (158 channels; median; ratio to ${rows[0]?.against} in the same run)`);
  for (const { what, medianMs, ratio } of rows)
    console.log(`  ${what.padEnd(58)}${medianMs.toFixed(4).padStart(12)} ms${ratio.toFixed(5).padStart(14)}`);
};

table('fit', fitBench());
table('propose', proposeBench());
