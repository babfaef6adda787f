import type { Reading } from '../../core/bridge/records.ts';
import { createMeterShop } from '../../electron/backend/meters/connect.ts';
import { knownProfiles } from '../../electron/backend/meters/known-profiles.ts';
import { type Meter, MeterFault } from '../../electron/backend/meters/meter-shop.ts';
import { rereadTape } from '../../electron/backend/meters/reread-tape.ts';
import { type Instrument, SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../electron/backend/meters/simulated/line-instrument.ts';
import { openPtyMeter, type PtyMeter } from '../../electron/backend/meters/simulated/pty.ts';
import { createTapeRecorder, joinPortions } from '../../electron/backend/meters/tape.ts';
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

/** So short a patience can end by a machine that is busy with other things; that is no fault of this bench. */
const MOST_GREETINGS = 10;
async function greetedBy(connect: () => Promise<Meter>): Promise<Meter> {
  for (let tries = 1; ; tries += 1) {
    try {
      return await connect();
    } catch (fault) {
      const isSlow = fault instanceof MeterFault && fault.code === 'silent';
      if (!isSlow || tries === MOST_GREETINGS) throw fault;
    }
  }
}

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
  const meter = await greetedBy(() => shop.connect({ kind: 'serial', path: pty.path, profile: name }, never));
  greeted = true;
  return { meter, hostile, pty };
}

export type Outcome = Readonly<{
  /** Readings whose level was not sent at that frequency. */
  invented: readonly string[];
  /** Planned frequencies that a sweep which said it was complete did not give, and those given twice. */
  lost: readonly number[];
  /** Readings that the bytes of the sweep, read again, do not give. */
  unproven: readonly string[];
  fault: unknown;
  count: number;
}>;

const manner = { repeats: 1, recheck: true };
const textOf = ({ frequencyMhz, meterDbmv }: Pick<Reading, 'frequencyMhz' | 'meterDbmv'>) =>
  `${meterDbmv} dBmV at ${frequencyMhz} MHz`;

/** Reads the tape again: the readings that were given out, in their order, and perhaps one more that nobody took. */
async function unprovenOf(portion: Uint8Array | undefined, readings: readonly Reading[]) {
  if (portion === undefined) return readings.map(textOf);
  const again = await rereadTape(joinPortions([portion]));
  return readings.map(textOf).filter((text, i) => again[i] === undefined || textOf(again[i]) !== text);
}

/** Sweeps once and holds every reading against what the meter sent. */
export async function hostileSweep(meter: Meter): Promise<Outcome> {
  const invented: string[] = [];
  const left = [...hostilePlan];
  const twice: number[] = [];
  const readings: Reading[] = [];
  let fault: unknown = null;
  const startedAt = new Date().toISOString();
  const about = { frequenciesMhz: [...hostilePlan], manner, startedAt };
  const tape = createTapeRecorder(about, () => performance.now());
  try {
    for await (const reading of meter.readLevels(hostilePlan, never, { manner, tape })) {
      readings.push(reading);
      const { frequencyMhz, meterDbmv } = reading;
      const at = left.indexOf(frequencyMhz);
      if (at < 0) twice.push(frequencyMhz);
      else left.splice(at, 1);
      if (meterDbmv === null || Math.abs(meterDbmv - levelSent(frequencyMhz)) > LAST_DIGIT_DB)
        invented.push(textOf(reading));
    }
  } catch (thrown) {
    fault = thrown;
  }
  const unproven = await unprovenOf(tape.portion()?.body, readings);
  const lost = fault === null ? [...left, ...twice] : twice;
  return { invented, lost, unproven, fault, count: readings.length };
}
