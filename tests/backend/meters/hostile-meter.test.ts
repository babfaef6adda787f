import { describe, expect, it, onTestFinished } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { createChance } from '../../support/chance.ts';
import { type Fault, tellableFaults } from '../../support/hostile.ts';
import { hostileBench, hostilePlan, hostileSweep } from '../../support/hostile-sweep.ts';

/** A trace has few answers, each of another kind; the others have one kind, many times. */
const placesOf = (name: string) => (name.includes('trace') ? [1, 2, 3, 4] : [3]);

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
    it.each(placesOf(name).flatMap((place) => tellableFaults(name).map((fault) => [fault, place] as const)))(
      'loses and invents no reading, and reads the same again from its bytes: %s at answer %i',
      async (fault, place) => {
        let answers = 0;
        const next = () => {
          answers += 1;
          return answers === place ? fault : null;
        };
        const { invented, lost, unproven, fault: thrown, count, counts } = await sweepUnder(name, next, 11);
        expect(counts.get(fault)).toBe(1);
        expect({ invented, lost, unproven, thrown }).toEqual({
          invented: [],
          lost: [],
          unproven: [],
          thrown: null,
        });
        expect(count).toBe(hostilePlan.length);
      },
    );

    it.each([1, 2, 3])('loses and invents none under faults by chance (seed %i)', async (seed) => {
      const chance = createChance(seed);
      const faults = tellableFaults(name);
      const next = () => (chance() < 0.12 ? (faults[Math.floor(chance() * faults.length)] ?? null) : null);
      const { invented, lost, unproven, fault, count } = await sweepUnder(name, next, seed);
      expect({ invented, lost, unproven }).toEqual({ invented: [], lost: [], unproven: [] });
      // So much harm may end a sweep as partial; what it gave until then is right.
      if (fault === null) expect(count).toBe(hostilePlan.length);
      else expect(fault).toMatchObject({ name: 'MeterFault' });
    });
  },
);
