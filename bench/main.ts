import { measureArchive } from './archive.ts';
import { inFilledArchive } from './archive-filled.ts';
import { fitBench } from './fit.ts';
import { liveBench } from './live.ts';
import { proposeBench } from './propose.ts';
import { measureQuality } from './quality.ts';
import { seasonBench } from './season.ts';
import { sweepBench } from './sweep.ts';
import type { BenchRow } from './timing.ts';
import { transferBench } from './transfer.ts';

const table = (title: string, rows: readonly BenchRow[]): void => {
  console.log(`\n${title} (median; ratio to ${rows[0]?.against} in the same run)`);
  for (const { what, medianMs, ratio } of rows)
    console.log(`  ${what.padEnd(58)}${medianMs.toFixed(4).padStart(12)} ms${ratio.toFixed(5).padStart(14)}`);
};

const ms = (value: number) => `${value.toFixed(1)} ms`;

const parts = {
  fit: () => table('fit of 158 channels', fitBench()),
  propose: async () => table('propose for 158 channels', await proposeBench()),
  season: () => table('season', seasonBench()),
  live,
  sweep,
  archive: filledArchive,
};

const asked = process.argv.slice(2).filter((word) => !word.startsWith('--'));
const stray = asked.filter((word) => !Object.hasOwn(parts, word));
if (stray.length > 0)
  throw new Error(`no part is called ${stray.join(', ')}; there are ${Object.keys(parts).join(', ')}`);
for (const [name, run] of Object.entries(parts)) if (asked.length === 0 || asked.includes(name)) await run();

async function live(): Promise<void> {
  const { readings, perSecond, p50Ms, p95Ms, worstMs } = await liveBench();
  console.log(
    `\nlive: serial byte to event at a client (${readings} readings, ${perSecond.toFixed(1)} a second)`,
  );
  console.log(`  median ${ms(p50Ms)}, 95 % within ${ms(p95Ms)}, worst ${ms(worstMs)}`);
}

async function sweep(): Promise<void> {
  console.log('\nsweep (158 channels, 20 ms a reading; wall time against what the line and the meter need)');
  for (const baudRate of [9600, 115_200]) {
    const { wallMs, neededMs, ratio } = await sweepBench(baudRate);
    const times = `${(wallMs / 1000).toFixed(2)} s, needed ${(neededMs / 1000).toFixed(2)} s`;
    console.log(`  ${`${baudRate} baud`.padEnd(58)}${times}, ratio ${ratio.toFixed(3)}`);
  }
}

async function filledArchive(): Promise<void> {
  // The full archive takes minutes to fill; one of a twentieth shows the same by its ratios.
  const full = process.argv.includes('--full');
  const sweepCount = full ? 100_000 : 5000;
  const fillBegun = performance.now();
  const { fillMs, archive, quality } = await inFilledArchive(
    sweepCount,
    full ? 5000 : 250,
    async (folder) => ({
      fillMs: performance.now() - fillBegun,
      archive: await measureArchive(folder, sweepCount),
      quality: await measureQuality(folder),
    }),
  );
  console.log(
    `\narchive of ${archive.sweeps} sweeps of 158 channels in ${archive.stations} stations (${full ? 'full' : 'npm run bench -- --full for 100,000'})`,
  );
  const seconds = (spentMs: number) => `${(spentMs / 1000).toFixed(1)} s`;
  console.log(
    `  ${archive.bytesAReading.toFixed(2)} bytes a reading on disk; filled in ${seconds(fillMs)}, ` +
      `verified in ${seconds(archive.verifyMs)}; with nothing judged before its list is there in ` +
      `${archive.firstGlanceMs.toFixed(0)} ms, and every station judged in ${seconds(archive.firstListMs)}`,
  );
  table('archive: read', archive.rows);
  table('all records at once, through the handlers', quality);

  const transfer = await transferBench(full ? 10_000 : 1000);
  table(
    `between laptops: ${transfer.sweeps} sweeps of 158 channels, ${(transfer.bytes / 1e6).toFixed(1)} MB`,
    transfer.rows,
  );
  console.log(`  while the file is read, nothing else waits longer than ${ms(transfer.longestHoldMs)}`);
}
