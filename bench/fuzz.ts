import { createChance } from '../tests/support/chance.ts';
import { fuzz, fuzzPlaces } from '../tests/support/fuzz-lines.ts';

/** `npm run fuzz`: random and mutated lines and blocks to every question of every profile; `npm run fuzz -- LINES SEED`. */
const lineCount = Number(process.argv[2] ?? 1_000_000);
const seed = Number(process.argv[3] ?? 1);
const heapMb = () => {
  globalThis.gc?.();
  return process.memoryUsage().heapUsed / 1e6;
};

const startMs = performance.now();
fuzz(20_000, createChance(seed + 1));
const beforeMb = heapMb();
const { lines, accepted, wrong } = fuzz(lineCount, createChance(seed));
const afterMb = heapMb();
const seconds = (performance.now() - startMs) / 1000;
console.log(
  `${lines} lines and blocks to ${fuzzPlaces} questions of every profile in ${seconds.toFixed(1)} s (seed ${seed})`,
);
console.log(`accepted ${accepted}, wrongly accepted or refused ${wrong.length}`);
console.log(`heap ${beforeMb.toFixed(1)} MB before, ${afterMb.toFixed(1)} MB after`);
for (const line of wrong) console.log(`  ${line}`);
if (wrong.length > 0 || afterMb > beforeMb + 20) process.exitCode = 1;
