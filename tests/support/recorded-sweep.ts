import { expect } from 'vitest';
import type { Reading } from '../../core/bridge/records.ts';
import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { knownProfiles } from '../../electron/backend/meters/known-profiles.ts';
import { createLineLink } from '../../electron/backend/meters/lines-over-bytes.ts';
import { type Instrument, SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { createTapeRecorder, joinPortions } from '../../electron/backend/meters/tape.ts';
import { waiting } from '../backend/meters/meter-suite.ts';
import { type Script, scriptedWire } from './scripted-wire.ts';

const never = new AbortController().signal;
export const recordedPlan = Array.from({ length: 60 }, (_, i) => 57 + 6 * i);
const startedAt = '2026-03-01T08:00:00.000Z';
const source = (frequencyMhz: number, draw: number) =>
  frequencyMhz === 303 ? null : frequencyMhz / 100 + ((draw * 7919) % 11) / 100;

/** What a cable does to one answer. */
export type Spoil = (answer: string, count: number, farEnd: Parameters<Script>[1]) => void;

/** Sweeps a meter over a wire that `spoil` may harm at each answer, and records the bytes. */
export async function recordedSweep(
  name: string,
  spoil: Spoil,
  manner = { repeats: 1, recheck: true },
  frequenciesMhz: readonly number[] = recordedPlan,
) {
  const profile = knownProfiles.find((known) => known.name === name);
  if (profile === undefined) throw new Error(name);
  const instrument: Instrument = name.startsWith('scpi')
    ? new SimulatedInstrument({ source })
    : new LineInstrument({ source });
  let count = 0;
  let reading = false;
  const script: Script = (line, farEnd) => {
    const { answer } = instrument.take(line);
    if (answer === null) return;
    if (!reading) return farEnd.send(`${answer}\n`);
    count += 1;
    spoil(`${answer}\n`, count, farEnd);
  };
  const shop = createMeterShop({
    now: () => new Date(startedAt),
    profiles: [waiting(profile, 150)],
    recovery: { firstMs: 1, mostMs: 5, withinMs: 2000, afterSleepMs: 1 },
    openSerial: async (path, { lines }) => createLineLink(path, lines, scriptedWire(script).start),
  });
  const meter = await shop.connect({ kind: 'serial', path: 'COM3', profile: name }, never);
  reading = true;
  const tape = createTapeRecorder({ frequenciesMhz: [...frequenciesMhz], manner, startedAt }, () =>
    performance.now(),
  );
  const portions: Uint8Array[] = [];
  const keep = () => {
    const portion = tape.portion();
    if (portion === null) return;
    expect(portion.place).toBe(portions.length);
    portions.push(portion.body);
    tape.kept();
  };
  const readings: Reading[] = [];
  let fault: unknown = null;
  try {
    for await (const one of meter.readLevels(frequenciesMhz, never, { manner, tape })) {
      readings.push(one);
      // Every third time the disk takes nothing; what is kept next then holds both.
      if (readings.length % 3 === 0) tape.portion();
      else keep();
    }
  } catch (thrown) {
    fault = thrown;
  }
  await meter.close();
  keep();
  return { readings, fault, portions, tape: joinPortions(portions) };
}

export const levelsOf = (readings: readonly Reading[]) =>
  readings.map(({ frequencyMhz, meterDbmv }) => [frequencyMhz, meterDbmv]);
export const well: Spoil = (answer, _count, { send }) => send(answer);
