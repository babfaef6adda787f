import { expect, it } from 'vitest';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import type { Manner } from '../../../electron/backend/meters/read-carefully.ts';
import {
  type LevelSource,
  SimulatedInstrument,
} from '../../../electron/backend/meters/simulated/instrument.ts';
import { wireToInstrument } from '../../../electron/backend/meters/simulated/link.ts';

const never = new AbortController().signal;
const plan = [57, 63, 69, 75, 81, 87];
const withTraces = knownProfiles.filter(({ trace }) => trace !== null).map(({ name }) => name);

/** Sweeps a meter that draws traces; `source` gets the number of the trace, from 0. */
async function swept(
  name: string,
  manner: Manner,
  source: (mhz: number, trace: number) => number | null,
  change: (profile: (typeof knownProfiles)[number]) => typeof profile = (profile) => profile,
) {
  let traces = -1;
  let before = Number.POSITIVE_INFINITY;
  const counted: LevelSource = (mhz) => {
    // Each trace begins at its low end.
    if (mhz <= before) traces += 1;
    before = mhz;
    return source(mhz, traces);
  };
  const profile = knownProfiles.find((known) => known.name === name);
  if (profile === undefined) throw new Error(name);
  const shop = createMeterShop({
    now: () => new Date(),
    profiles: [change({ ...profile, settleMs: 0 })],
    recovery: null,
    openSerial: async (path, { lines }) => {
      const instrument = new SimulatedInstrument({ source: counted });
      return createLineLink(path, lines, wireToInstrument(instrument, { messageMs: 0, readingMs: 0 }));
    },
  });
  const meter = await shop.connect({ kind: 'serial', path: 'COM3', profile: name }, never);
  const levels: (number | null)[] = [];
  for await (const { meterDbmv } of meter.readLevels(plan, never, { manner }))
    levels.push(meterDbmv === null ? null : Number(meterDbmv.toFixed(2)));
  await meter.close();
  return { levels, traces: traces + 1 };
}
const level = (mhz: number) => mhz / 10;
const asItIs = plan.map(level);

it('is tried with every shipped profile that reads traces', () => {
  expect(withTraces).toEqual(['scpi-trace', 'scpi-trace-block']);
});

it.each(withTraces)('makes one reading of as many traces as were wished, their mean: %s', async (name) => {
  // Traces that lie 0, 0.3 and 0.6 dB off come to 0.3.
  const source = (mhz: number, trace: number) => level(mhz) + 0.3 * trace;
  const { levels, traces } = await swept(name, { repeats: 3, recheck: false }, source);
  expect(traces).toBe(3);
  expect(levels).toEqual(asItIs.map((dbmv) => Number((dbmv + 0.3).toFixed(2))));
});

it.each(withTraces)('asks once where a trace looks like its channels: %s', async (name) => {
  const { levels, traces } = await swept(name, { repeats: 1, recheck: true }, level);
  expect([levels, traces]).toEqual([asItIs, 1]);
});

it.each(withTraces)(
  'asks again for a trace with an outlier, and the middle of three counts: %s',
  async (name) => {
    const source = (mhz: number, trace: number) => (mhz === 75 && trace === 0 ? 40 : level(mhz));
    const { levels, traces } = await swept(name, { repeats: 1, recheck: true }, source);
    expect([levels, traces]).toEqual([asItIs, 3]);
  },
);

it.each(withTraces)(
  'asks once more where a level is missing, and keeps what both traces say: %s',
  async (name) => {
    const source = (mhz: number) => (mhz === 75 ? null : level(mhz));
    const { levels, traces } = await swept(name, { repeats: 1, recheck: true }, source);
    expect([levels, traces]).toEqual([asItIs.map((dbmv) => (dbmv === 7.5 ? null : dbmv)), 2]);
  },
);

it('does not ask again where the sweep wishes none, nor by a profile of before there was this', async () => {
  const source = (mhz: number, trace: number) => (mhz === 75 && trace === 0 ? 40 : level(mhz));
  const plainly = await swept('scpi-trace', { repeats: 1, recheck: false }, source);
  expect([plainly.levels[3], plainly.traces]).toEqual([40, 1]);
  const older = await swept('scpi-trace', { repeats: 1, recheck: true }, source, (profile) => ({
    ...profile,
    trace: profile.trace && { ...profile.trace, askAgain: false },
  }));
  expect([older.levels[3], older.traces]).toEqual([40, 1]);
});
