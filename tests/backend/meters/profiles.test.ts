import { readdirSync, readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import type { Profile } from '../../../electron/backend/meters/profile.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import { tellingSource } from '../../support/pty.ts';
import { type HealthyMeter, meterSuite } from './meter-suite.ts';

const scpiMeter: HealthyMeter = () => {
  const instrument = new SimulatedInstrument({ source: tellingSource });
  return (line) => instrument.take(line).answer;
};
const lineMeter: HealthyMeter = () => {
  const instrument = new LineInstrument({ source: tellingSource, calibratedOn: '2026-01-15' });
  return (line) => instrument.take(line).answer;
};
/** For each profile by name, a meter that answers it. A profile without one fails below. */
const healthyMeters: Readonly<Record<string, HealthyMeter>> = {
  scpi: scpiMeter,
  'scpi-trace': scpiMeter,
  'scpi-trace-block': scpiMeter,
  line: lineMeter,
  'line-checked': lineMeter,
  replay: lineMeter,
};

const folder = 'electron/backend/meters/profiles';
const inFolder: Profile[] = readdirSync(folder)
  .filter((file) => file.endsWith('.json'))
  .map((file) => {
    const read = readMeterProfile(readFileSync(`${folder}/${file}`, 'utf8'), file);
    if (!read.ok) throw new Error(`${read.where}: ${read.help}`);
    return read.value;
  });

it('knows every profile of the folder, each by a name of its own', () => {
  expect(inFolder.length).toBeGreaterThan(0);
  const byName = (a: Profile, b: Profile) => a.name.localeCompare(b.name);
  expect([...knownProfiles].sort(byName)).toEqual(inFolder.toSorted(byName));
  expect(new Set(knownProfiles.map(({ name }) => name)).size).toBe(knownProfiles.length);
});

for (const profile of inFolder) {
  const healthyMeter = healthyMeters[profile.name];
  it(`has a healthy meter to try the profile ${profile.name} with`, () => expect(healthyMeter).toBeDefined());
  if (healthyMeter !== undefined) meterSuite(profile, healthyMeter);
}
