import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { killRun } from './kill/run.ts';
import { places } from './kill/said.ts';

/** `npm run kill-test -- KILLS SEED`: kills a program at work on an archive, and looks each time whether all is there. */
const kills = Number(process.argv[2] ?? 200);
const seed = Number(process.argv[3] ?? 1);
const folder = mkdtempSync(join(tmpdir(), 'tiltwright-kill-'));
const startMs = performance.now();
try {
  const report = await killRun({
    ...{ kills, seed, folder, killsALife: 25, fileCount: 16, oldSweeps: 300 },
    told: console.log,
  });
  const minutes = (performance.now() - startMs) / 60_000;
  const row = (what: string, count: number) =>
    console.log(`  ${what.padEnd(50)} ${String(count).padStart(7)}`);
  console.log(
    `\n${report.kills} kills of ${report.lives} archives in ${minutes.toFixed(1)} min (seed ${seed})`,
  );
  console.log('fell while the program was (one may count for several)');
  const order = (what: string) => places.findIndex((place) => what.startsWith(place));
  for (const [what, count] of [...report.fell].sort(([a], [b]) => order(a) - order(b) || a.localeCompare(b)))
    row(what, count);
  console.log('acknowledged before a kill');
  for (const [what, count] of report.acknowledged) row(what, count);
  console.log('in all archives at their ends');
  row('records', report.extent.records);
  row('sweeps', report.extent.sweeps);
  row('readings', report.extent.readings);
  row('backups, each looked through', report.backups);
  row('sweeps that a kill left without an end, ended', report.recovered);
  row('LOST', report.losses.length);
  for (const loss of report.losses) console.log(`  ${loss}`);
  if (report.losses.length > 0) process.exitCode = 1;
} finally {
  rmSync(folder, { recursive: true, force: true });
}
