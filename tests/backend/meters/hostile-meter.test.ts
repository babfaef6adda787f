import { describe, expect, it, onTestFinished } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { createChance } from '../../support/chance.ts';
import { allFaults, type Fault, tellableFaults } from '../../support/hostile.ts';
import { hostileBench, hostilePlan, hostileSweep } from '../../support/hostile-sweep.ts';

/** Only a checksum tells a changed digit from another level. */
const faultsOf = (name: string) => (name === 'line-checked' ? allFaults : tellableFaults);

async function sweepUnder(name: string, next: () => Fault | null, seed: number) {
  const { meter, hostile, pty } = await hostileBench(name, next, createChance(seed));
  onTestFinished(async () => {
    await meter.close();
    await pty.unplug();
  });
  return { ...(await hostileSweep(meter)), counts: hostile.counts };
}

describe.skipIf(process.platform === 'win32').each(knownProfiles.map(({ name }) => name))(
  'a hostile meter that speaks %s',
  (name) => {
    it.each(faultsOf(name).map((fault) => [fault]))(
      'loses and invents no reading: %s at the third answer',
      async (fault) => {
        let answers = 0;
        const next = () => {
          answers += 1;
          return answers === 3 ? fault : null;
        };
        const { invented, lost, fault: thrown, count, counts } = await sweepUnder(name, next, 11);
        expect(counts.get(fault)).toBe(1);
        expect({ invented, lost, thrown }).toEqual({ invented: [], lost: [], thrown: null });
        expect(count).toBe(hostilePlan.length);
      },
    );

    it.each([1, 2, 3])('loses and invents none under faults by chance (seed %i)', async (seed) => {
      const chance = createChance(seed);
      const faults = faultsOf(name);
      const next = () => (chance() < 0.12 ? (faults[Math.floor(chance() * faults.length)] ?? null) : null);
      const { invented, lost, fault, count } = await sweepUnder(name, next, seed);
      expect({ invented, lost }).toEqual({ invented: [], lost: [] });
      // So much harm may end a sweep as partial; what it gave until then is right.
      if (fault === null) expect(count).toBe(hostilePlan.length);
      else expect(fault).toMatchObject({ name: 'MeterFault' });
    });
  },
);
