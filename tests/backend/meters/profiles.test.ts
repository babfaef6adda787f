import { readdirSync } from 'node:fs';
import { expect, it } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import type { Profile } from '../../../electron/backend/meters/profile.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { tellingSource } from '../../support/pty.ts';
import { type HealthyMeter, meterSuite } from './meter-suite.ts';

/** For each profile by name, a meter that answers it. A profile without one fails below. */
const healthyMeters: Readonly<Record<string, HealthyMeter>> = {
  scpi: () => {
    const instrument = new SimulatedInstrument({ source: tellingSource });
    return (line) => instrument.take(line).answer;
  },
};

const folder = 'electron/backend/meters/profiles';
const inFolder: Profile[] = [];
for (const file of readdirSync(folder)) {
  const loaded: Readonly<Record<string, unknown>> = await import(
    /* @vite-ignore */ `../../../${folder}/${file}`
  );
  for (const value of Object.values(loaded)) {
    if (typeof value === 'object' && value !== null && 'identify' in value) inFolder.push(value as Profile);
  }
}

it('knows every profile of the folder, each by a name of its own', () => {
  expect(inFolder.length).toBeGreaterThan(0);
  expect([...knownProfiles]).toEqual(inFolder);
  expect(new Set(knownProfiles.map(({ name }) => name)).size).toBe(knownProfiles.length);
});

it('matches whole lines only: no profile takes a part of a line for an answer', () => {
  for (const { identify, unit, level, nextError } of inFolder) {
    for (const { answer } of [identify, unit.confirm, level, nextError]) {
      expect(answer.source).toMatch(/^\^.*\$$/);
      expect(answer.flags).not.toMatch(/[gmy]/);
    }
  }
});

for (const profile of inFolder) {
  const healthyMeter = healthyMeters[profile.name];
  it(`has a healthy meter to try the profile ${profile.name} with`, () => expect(healthyMeter).toBeDefined());
  if (healthyMeter !== undefined) meterSuite(profile, healthyMeter);
}
