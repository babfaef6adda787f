import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { knownProfiles } from '../../electron/backend/meters/known-profiles.ts';
import type { Meter } from '../../electron/backend/meters/meter-shop.ts';
import { type Instrument, SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { openPtyMeter, type PtyMeter } from '../../electron/backend/meters/simulated/pty.ts';
import { waiting } from '../backend/meters/meter-suite.ts';
import { createHostile, type Fault, type Hostile } from './hostile.ts';
import { tellingSource } from './pty.ts';

/** A plan whose levels tell their frequency: a level in the wrong place, or one that was never sent, is seen at once. */
export const hostilePlan = Array.from({ length: 20 }, (_, i) => 57 + 36 * i);
export const levelSent = (frequencyMhz: number): number => Number((frequencyMhz / 100).toFixed(2));
/** Written in another unit with two digits, a level comes back within this. */
export const LAST_DIGIT_DB = 0.011;

const never = new AbortController().signal;

const createFor = (name: string) => (): Instrument =>
  name.startsWith('scpi')
    ? new SimulatedInstrument({ source: tellingSource })
    : new LineInstrument({ source: tellingSource, calibratedOn: '2026-01-15' });

/** A real serial port driver on a pseudo-terminal, and a hostile meter at its far end. */
export async function hostileBench(
  name: string,
  next: () => Fault | null,
  chance: () => number,
): Promise<Readonly<{ meter: Meter; hostile: Hostile; pty: PtyMeter }>> {
  const profile = knownProfiles.find((known) => known.name === name);
  if (profile === undefined) throw new Error(name);
  let greeted = false;
  const hostile = createHostile(() => (greeted ? next() : null), createFor(name), chance);
  const pty = await openPtyMeter(hostile.instrument, { messageMs: 0, readingMs: 0 }, hostile.cable);
  const shop = createMeterShop({
    now: () => new Date(),
    profiles: [{ ...waiting(profile, 120), link: 'serial' }],
    find: async () => ({ ports: [], problem: null }),
    recovery: { firstMs: 5, mostMs: 100, withinMs: 5000, afterSleepMs: 5 },
  });
  const meter = await shop.connect({ kind: 'serial', path: pty.path, profile: name }, never);
  greeted = true;
  return { meter, hostile, pty };
}

export type Outcome = Readonly<{
  /** Readings whose level was not sent at that frequency. */
  invented: readonly string[];
  /** Planned frequencies that a sweep which said it was complete did not give, and those given twice. */
  lost: readonly number[];
  fault: unknown;
  count: number;
}>;

/** Sweeps once and holds every reading against what the meter sent. */
export async function hostileSweep(meter: Meter): Promise<Outcome> {
  const invented: string[] = [];
  const left = [...hostilePlan];
  const twice: number[] = [];
  let count = 0;
  let fault: unknown = null;
  try {
    const how = { manner: { repeats: 1, recheck: true } };
    for await (const { frequencyMhz, meterDbmv } of meter.readLevels(hostilePlan, never, how)) {
      count += 1;
      const at = left.indexOf(frequencyMhz);
      if (at < 0) twice.push(frequencyMhz);
      else left.splice(at, 1);
      if (meterDbmv === null || Math.abs(meterDbmv - levelSent(frequencyMhz)) > LAST_DIGIT_DB)
        invented.push(`${meterDbmv} dBmV at ${frequencyMhz} MHz`);
    }
  } catch (thrown) {
    fault = thrown;
  }
  return { invented, lost: fault === null ? [...left, ...twice] : twice, fault, count };
}
