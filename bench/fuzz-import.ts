import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import papa from 'papaparse';
import { readSweepFile } from '../core/files/read-sweep-file.ts';
import { createChance } from '../tests/support/chance.ts';
import { importFault, mutated, ownSeeds } from '../tests/support/fuzz-import.ts';
import { root } from '../tests/support/source-files.ts';

/** `node bench/fuzz-import.ts MUTATIONS SEED`: mutated files of every dialect, real ones where they are there, to the importer. */
const count = Number(process.argv[2] ?? 200_000);
const seed = Number(process.argv[3] ?? 1);
const chance = createChance(seed);

const realIn = (folder: string) =>
  existsSync(folder)
    ? readdirSync(folder)
        .filter((name) => /\.(csv|txt|s\dp)$/.test(name) && !name.includes('4port'))
        .map((name) => ({ name, text: readFileSync(join(folder, name), 'utf8').slice(0, 2500) }))
    : [];
const shared = join(root, '../shared');
const seeds = [
  ...ownSeeds.map((text) => ({ name: /^(!|\[V)/.test(text) ? 'own.s2p' : 'own.txt', text })),
  ...['real-levels/raw', 'real-levels', 'touchstone'].flatMap((folder) => realIn(join(shared, folder))),
];

let accepted = 0;
let slowestMs = 0;
const faults = new Map<string, string>();
const startMs = performance.now();
for (let i = 0; i < count; i++) {
  const one = seeds[Math.floor(chance() * seeds.length)] ?? seeds[0];
  if (one === undefined) break;
  const text = mutated(one.text, chance);
  const beganMs = performance.now();
  try {
    const fault = importFault(text, one.name);
    if (fault !== null) faults.set(fault, text);
    else if (readSweepFile(text, one.name).ok) accepted++;
  } catch (crash) {
    faults.set(`crash: ${crash instanceof Error ? (crash.stack ?? crash.message) : String(crash)}`, text);
  }
  slowestMs = Math.max(slowestMs, performance.now() - beganMs);
}
console.log(
  `${count} mutations of ${seeds.length} files (seed ${seed}) in ${((performance.now() - startMs) / 1000).toFixed(1)} s`,
);
console.log(`accepted ${accepted}, the slowest took ${slowestMs.toFixed(0)} ms, faults ${faults.size}`);
for (const [fault, text] of faults) console.log(`  ${fault}\n    ${JSON.stringify(text.slice(0, 3000))}`);

/** Five megabytes of what one file repeats, and how long bare papaparse needs to split the same text. */
for (const [what, head, body] of [
  [
    'channel table',
    'Frequency\tPower\tSNR\tModulation\n',
    (mhz: string, level: string, mer: string) => `${mhz} MHz\t${level} dBmV\t${mer} dB\t256QAM\n`,
  ],
  [
    'own CSV',
    'frequency_mhz,level_dbmv,kind,mer_db,label\n',
    (mhz: string, level: string, mer: string, i: number) => `${mhz},${level},qam,${mer},Channel ${i}\n`,
  ],
] as const) {
  // Rows that differ, so that nothing can be remembered of the one before.
  const rows: string[] = [];
  for (let i = 0, length = 0; length < 5e6; i++) {
    const row = body(
      (54 + i * 0.0093).toFixed(4),
      (14 * Math.sin(i / 97)).toFixed(2),
      (36 + 3 * Math.cos(i / 31)).toFixed(2),
      i,
    );
    rows.push(row);
    length += row.length;
  }
  const text = head + rows.join('');
  const times = (run: () => void) => {
    const began = process.cpuUsage();
    run();
    return process.cpuUsage(began).user / 1000;
  };
  const ours = Math.min(...[1, 2, 3].map(() => times(() => void readSweepFile(text, 'big.txt'))));
  const bare = Math.min(
    ...[1, 2, 3].map(() =>
      times(
        () =>
          void papa.parse(text, {
            delimiter: head.includes('\t') ? '\t' : ',',
            newline: '\n',
            skipEmptyLines: false,
          }),
      ),
    ),
  );
  console.log(
    `5 MB ${what}: ${ours.toFixed(0)} ms of processor time, ${(ours / bare).toFixed(1)} times bare papaparse`,
  );
}
if (faults.size > 0) process.exitCode = 1;
