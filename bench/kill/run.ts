import { mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { createChance } from '../../tests/support/chance.ts';
import type { Extent } from './check-archive.ts';
import { createLife, type Life } from './life.ts';
import { filesOfAnother } from './other-laptop.ts';
import type { Place } from './said.ts';
import { createDurations, createVictim } from './victim.ts';

export type KillRun = Readonly<{
  kills: number;
  seed: number;
  /** An empty folder; everything lies below it. */
  folder: string;
  /** So many kills, then a new archive of an older version; its last ones strike a restore. */
  killsALife: number;
  fileCount: number;
  oldSweeps: number;
  /** Told of each kill. */
  told?: (line: string) => void;
}>;

export type KillReport = Readonly<{
  kills: number;
  lives: number;
  /** Kills that fell into each kind of work; one may fall into several. */
  fell: ReadonlyMap<string, number>;
  acknowledged: ReadonlyMap<string, number>;
  /** Sweeps that a killed program had left without an end. */
  recovered: number;
  /** All archives together, as they were at the end. */
  extent: Extent;
  backups: number;
  losses: readonly string[];
}>;

const MOST_LOSSES = 50;

/** Kills a busy program again and again, and looks after each kill whether everything is there that was acknowledged. */
export async function killRun(run: KillRun): Promise<KillReport> {
  const { kills, seed, folder, killsALife, fileCount, oldSweeps, told = () => undefined } = run;
  const chance = createChance(seed);
  const durations = createDurations();
  const files = await filesOfAnother(join(folder, 'from-others'), { fileCount, sweepCount: 60, chance });
  const compiled = join(folder, 'compiled');
  const fell = new Map<string, number>();
  const acknowledged = new Map<string, number>();
  const losses: string[] = [];
  let recovered = 0;
  let backups = 0;
  let extent: Extent = { records: 0, sweeps: 0, readings: 0 };
  let lives = 0;
  let life: Life | null = null;
  const count = (map: Map<string, number>, key: string, more = 1) => map.set(key, (map.get(key) ?? 0) + more);
  const note = (place: string, found: readonly string[]) => {
    for (const loss of found) {
      told(`  LOST: ${loss}`);
      if (losses.length < MOST_LOSSES) losses.push(`${place}: ${loss}`);
    }
  };
  const endLife = async (which: Life) => {
    const end = await which.end();
    note(`end of archive ${lives}`, end.losses);
    extent = {
      records: extent.records + end.extent.records,
      sweeps: extent.sweeps + end.extent.sweeps,
      readings: extent.readings + end.extent.readings,
    };
    backups += end.backups;
    rmSync(which.folder, { recursive: true, force: true });
  };

  // The next program loads while what the last one left is looked at.
  let hearing = (_said: Parameters<Life['hear']>[0]): void => undefined;
  let next = createVictim((said) => hearing(said), { durations, compiled });
  try {
    for (let kill = 1; kill <= kills; kill += 1) {
      const place = (kill - 1) % killsALife;
      if (life === null || place === 0) {
        if (life !== null) await endLife(life);
        lives += 1;
        const own = join(folder, `archive-${lives}`);
        mkdirSync(own);
        life = createLife({ folder: own, files, oldSweeps, chance, durations });
      }
      const now: Life = life;
      hearing = (said) => {
        if (said.say !== 'head') count(acknowledged, said.say);
        now.hear(said);
      };
      const restores = place >= killsALife - Math.max(1, Math.round(killsALife / 12));
      const { order, moment } = restores ? now.planRestore() : now.plan(place);
      const victim = next;
      const killed = await victim.run(order, moment);
      next = createVictim((said) => hearing(said), { durations, compiled });
      const where = [...killed.under].map((one: Place) =>
        killed.step !== null && one.startsWith('migrating') ? `${one}, step ${killed.step}` : one,
      );
      for (const one of where.length === 0 ? ['between two of them'] : where) count(fell, one);
      if (killed.ended !== null && !restores)
        note(`kill ${kill}`, [
          `the program ended by itself (${killed.ended}): ${killed.complaint.slice(0, 2000)}`,
        ]);
      const found = await (restores ? now.checkRestore() : now.check());
      recovered += found.recovered;
      told(
        `${kill}: ${where.join(', ') || 'between'}; ${found.extent.records} records, ${found.extent.sweeps} sweeps`,
      );
      note(`kill ${kill} (${where.join(', ')})`, found.losses);
    }
    if (life !== null) await endLife(life);
  } finally {
    await next.dismiss();
  }
  return { kills, lives, fell, acknowledged, recovered, extent, backups, losses };
}
