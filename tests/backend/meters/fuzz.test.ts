import { expect, it } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { createChance } from '../../support/chance.ts';
import { fuzz, fuzzTargets, linesForEach } from '../../support/fuzz-lines.ts';

it('takes what a healthy meter answers, for every question of every profile', () => {
  expect(fuzzTargets.length).toBeGreaterThan(15);
  for (const { name, good, accepts, allowed } of fuzzTargets) {
    expect(good.length, name).toBeGreaterThan(0);
    for (const line of good) expect([line, accepts(line), allowed(line)]).toEqual([line, true, true]);
  }
});

it('counts lines so that the profile with the fewest questions has its share', () => {
  const counts = new Map<string, number>();
  const named = ({ name }: (typeof fuzzTargets)[number]) => name.split(', ')[0] ?? '';
  for (const target of fuzzTargets) counts.set(named(target), (counts.get(named(target)) ?? 0) + 1);
  expect(counts.size).toBe(knownProfiles.length);
  const places = linesForEach(1000) / Math.ceil(1000 / Math.min(...counts.values()));
  expect(places).toBeGreaterThanOrEqual(fuzzTargets.length);
});

// A million lines take longer: npm run fuzz.
it('accepts no line that the grammar forbids, and refuses none that it allows (a share of the fuzz)', () => {
  const { lines, accepted, wrong } = fuzz(60_000, createChance(2026));
  expect(wrong).toEqual([]);
  expect(lines).toBeGreaterThan(50_000);
  expect(accepted / lines).toBeGreaterThan(0.1);
  expect(accepted / lines).toBeLessThan(0.7);
});
