import { createChance } from '../tests/support/chance.ts';
import { fuzz, fuzzPlaces, linesForEach } from '../tests/support/fuzz-lines.ts';
import { grown, memoryNow, memoryWords } from './memory.ts';

/** `npm run fuzz`: random and mutated lines and blocks to every question of every profile; `npm run fuzz -- LINES SEED`, LINES for each profile. */
const eachCount = Number(process.argv[2] ?? 1_000_000);
const seed = Number(process.argv[3] ?? 1);

const startMs = performance.now();
fuzz(1_000_000, createChance(seed + 1));
const before = memoryNow();
const { lines, accepted, wrong } = fuzz(linesForEach(eachCount), createChance(seed));
const after = memoryNow();
const seconds = (performance.now() - startMs) / 1000;
console.log(
  `${lines} lines and blocks to ${fuzzPlaces} questions, at least ${eachCount} to every profile, in ${seconds.toFixed(1)} s (seed ${seed})`,
);
console.log(`accepted ${accepted}, wrongly accepted or refused ${wrong.length}`);
console.log(`memory before: ${memoryWords(before)}`);
console.log(`memory after: ${memoryWords(after)}`);
const grew = grown(before, after);
console.log(`grew: ${grew.join(', ') || 'nothing'}`);
for (const line of wrong) console.log(`  ${line}`);
if (wrong.length > 0 || grew.length > 0) process.exitCode = 1;
