import { knownProfiles } from '../electron/backend/meters/known-profiles.ts';
import { createChance } from '../tests/support/chance.ts';
import { type Fault, tellableFaults } from '../tests/support/hostile.ts';
import { hostileBench, hostilePlan, hostileSweep } from '../tests/support/hostile-sweep.ts';
import { grown, type Memory, memoryNow, memoryWords } from './memory.ts';

/** `npm run soak`: sweeps of a hostile meter on a pseudo-terminal; `npm run soak -- SWEEPS MINUTES SEED`. */
const mostSweeps = Number(process.argv[2] ?? 10_000);
const mostMinutes = Number(process.argv[3] ?? 20);
const seed = Number(process.argv[4] ?? 1);
const FAULT_RATE = 0.03;
const SWEEPS_A_SESSION = 25;
/** Compilers and pools have settled by then. */
const SETTLED_SWEEPS = 300;
/** A half that is shorter says nothing of growth: V8 may still be taking room for young objects. */
const LEAST_HALF_MIN = 4;
/** Flat is: no more than this in the second half. */
const SWELL_MB = 15;

const startMs = performance.now();
const minutes = () => (performance.now() - startMs) / 60_000;

const chance = createChance(seed);
const struck = new Map<Fault, number>();
const total = { sweeps: 0, complete: 0, readings: 0, invented: 0, lost: 0, unproven: 0, notAMeterFault: 0 };
const partial = new Map<string, number>();
const words: string[] = [];
let settled: Memory | null = null;
let half: (Memory & { atMin: number }) | null = null;
let shownAt = 0;

const names = knownProfiles.map(({ name }) => name);
for (let round = 0; total.sweeps < mostSweeps && minutes() < mostMinutes; round += 1) {
  const name = names[round % names.length] ?? '';
  const faults = tellableFaults(name);
  const next = () => (chance() < FAULT_RATE ? (faults[Math.floor(chance() * faults.length)] ?? null) : null);
  const { meter, hostile, pty } = await hostileBench(name, next, chance);
  for (let i = 0; i < SWEEPS_A_SESSION && total.sweeps < mostSweeps && minutes() < mostMinutes; i += 1) {
    const { invented, lost, unproven, fault, count } = await hostileSweep(meter);
    total.sweeps += 1;
    total.readings += count;
    total.invented += invented.length;
    total.lost += lost.length;
    total.unproven += unproven.length;
    const odd = [
      ...lost.map((mhz) => `lost ${mhz} MHz`),
      ...unproven.map((one) => `not in its bytes: ${one}`),
    ];
    for (const word of [...invented, ...odd]) if (words.length < 20) words.push(`${name}: ${word}`);
    if (fault === null) total.complete += 1;
    else {
      const code = fault instanceof Error && 'code' in fault ? String(fault.code) : 'other';
      if (code === 'other') total.notAMeterFault += 1;
      partial.set(code, (partial.get(code) ?? 0) + 1);
      if (code === 'lost' || code === 'silent' || code === 'other') break;
    }
  }
  await meter.close();
  await pty.unplug();
  for (const [fault, count] of hostile.counts) struck.set(fault, (struck.get(fault) ?? 0) + count);
  if (settled === null && total.sweeps >= SETTLED_SWEEPS) settled = memoryNow();
  const gone = Math.max(total.sweeps / mostSweeps, minutes() / mostMinutes);
  if (half === null && gone >= 0.5) half = { ...memoryNow(), atMin: minutes() };
  if (minutes() - shownAt >= 1) {
    shownAt = minutes();
    console.log(
      `${shownAt.toFixed(0)} min: ${total.sweeps} sweeps, ${total.readings} readings; ${memoryWords(memoryNow())}`,
    );
  }
}

const list = (counts: ReadonlyMap<string, number>) =>
  [...counts].map(([what, count]) => `${what} ${count}`).join(', ') || 'none';
const end = memoryNow();
console.log(
  `${total.sweeps} sweeps of ${hostilePlan.length} channels in ${minutes().toFixed(1)} min (seed ${seed})`,
);
console.log(`complete ${total.complete}; partial: ${list(partial)}`);
console.log(
  `readings ${total.readings}, invented ${total.invented}, lost ${total.lost}, not in the sweep's bytes ${total.unproven}`,
);
console.log(`faults: ${list(struck)}`);
if (settled !== null) console.log(`memory after ${SETTLED_SWEEPS} sweeps: ${memoryWords(settled)}`);
console.log(`memory at the end: ${memoryWords(end)}`);
const grew = settled === null ? [] : grown(settled, end);
console.log(settled === null ? 'too short for a word on memory' : `grew: ${grew.join(', ') || 'nothing'}`);
const laterMb = half === null || half.atMin < LEAST_HALF_MIN ? null : end.residentMb - half.residentMb;
if (half !== null && laterMb !== null)
  console.log(
    `resident memory since ${half.atMin.toFixed(1)} min: ${half.residentMb.toFixed(1)} to ${end.residentMb.toFixed(1)} MB`,
  );
for (const word of words) console.log(`  ${word}`);
const swelled = (laterMb ?? 0) > SWELL_MB;
if (swelled) console.log('resident memory is not flat');
const wrong = total.invented + total.lost + total.unproven + total.notAMeterFault;
if (wrong + grew.length > 0 || swelled) process.exitCode = 1;
