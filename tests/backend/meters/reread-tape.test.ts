import { deflateSync } from 'node:zlib';
import { expect, it } from 'vitest';
import type { Reading } from '../../../core/bridge/records.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import { rereadTape, TapeMismatch } from '../../../electron/backend/meters/reread-tape.ts';
import type { Instrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { SimulatedInstrument } from '../../../electron/backend/meters/simulated/instrument.ts';
import { LineInstrument } from '../../../electron/backend/meters/simulated/line-instrument.ts';
import {
  createTapeRecorder,
  joinPortions,
  type Tape,
  unpackTape,
} from '../../../electron/backend/meters/tape.ts';
import { type Script, scriptedWire } from '../../support/scripted-wire.ts';
import { waiting } from './meter-suite.ts';

const never = new AbortController().signal;
const plan = Array.from({ length: 60 }, (_, i) => 57 + 6 * i);
const startedAt = '2026-03-01T08:00:00.000Z';
const source = (frequencyMhz: number, draw: number) =>
  frequencyMhz === 303 ? null : frequencyMhz / 100 + ((draw * 7919) % 11) / 100;

/** Sweeps a meter over a wire that `spoil` may harm at each answer, and records the bytes. */
async function recorded(
  name: string,
  spoil: (answer: string, count: number, farEnd: Parameters<Script>[1]) => void,
  manner = { repeats: 1, recheck: true },
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
  const tape = createTapeRecorder({ frequenciesMhz: plan, manner, startedAt }, () => performance.now());
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
    for await (const one of meter.readLevels(plan, never, { manner, tape })) {
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
const levelsOf = (readings: readonly Reading[]) =>
  readings.map(({ frequencyMhz, meterDbmv }) => [frequencyMhz, meterDbmv]);
const well = (answer: string, _count: number, { send }: Parameters<Script>[1]) => send(answer);
const again = async (tape: Tape) => levelsOf(await rereadTape(tape));

it.each(knownProfiles.map(({ name }) => name))(
  'reads the same levels again from the bytes: %s',
  async (name) => {
    const { readings, fault, tape } = await recorded(name, well);
    expect(fault).toBeNull();
    expect(readings).toHaveLength(plan.length);
    expect(await again(tape)).toEqual(levelsOf(readings));
  },
);

it.each(['scpi', 'line-checked'])(
  'reads the same again through garbage, cut answers, silence, late answers and a cable that was pulled: %s',
  async (name) => {
    const { readings, fault, tape } = await recorded(name, (answer, count, { send, unplug }) => {
      if (count === 5) return send(`\xf8\x80${answer}`);
      if (count === 11) return send(answer.slice(0, 7));
      if (count === 20) return void setTimeout(() => send(answer), 190);
      if (count === 31) return unplug();
      if (count === 40) return send(answer.replace(/\d\.\d/, '9.9'));
      send(answer);
    });
    expect(fault).toBeNull();
    expect(tape.sessions.length).toBeGreaterThan(1);
    expect(readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual(plan);
    expect(await again(tape)).toEqual(levelsOf(readings));
  },
);

it('reads the same again where many readings make one', async () => {
  const { readings, tape } = await recorded('line', well, { repeats: 3, recheck: true });
  expect(await again(tape)).toEqual(levelsOf(readings));
});

it('cut at every byte, gives no reading that was not sent, and every one that was', async () => {
  const { readings, tape } = await recorded('line', well, { repeats: 1, recheck: false });
  const [session] = tape.sessions;
  if (session === undefined) throw new Error('no session');
  const whole = levelsOf(readings);
  let most = 0;
  for (const [at, entry] of session.entries.slice(0, 24).entries()) {
    if (entry[0] !== 'heard') continue;
    for (let cut = 0; cut < entry[2].length; cut += 1) {
      const entries = [
        ...session.entries.slice(0, at),
        [entry[0], entry[1], entry[2].slice(0, cut)] satisfies typeof entry,
      ];
      const found = levelsOf(await rereadTape({ ...tape, sessions: [{ ...session, entries }] }));
      expect(found).toEqual(whole.slice(0, found.length));
      most = Math.max(most, found.length);
    }
  }
  expect(most).toBeGreaterThan(8);
});

it('notices a tape whose questions are not those of its profile', async () => {
  const { tape } = await recorded('line', well);
  const [session] = tape.sessions;
  if (session === undefined) throw new Error('no session');
  const entries = session.entries.map((entry) =>
    entry[0] === 'said'
      ? ([entry[0], entry[1], entry[2].replace('READ', 'READX')] satisfies typeof entry)
      : entry,
  );
  await expect(rereadTape({ ...tape, sessions: [{ ...session, entries }] })).rejects.toThrow(TapeMismatch);
});

it('keeps a sweep of 158 channels in a few kB, and refuses damaged bytes', async () => {
  const { portions } = await recorded('scpi', well);
  expect(portions.length).toBeGreaterThan(30);
  expect(portions.reduce((sum, { length }) => sum + length, 0)).toBeLessThan(10_000);
  const [first = new Uint8Array()] = portions;
  const damaged = Buffer.from(first);
  damaged[100] = (damaged[100] ?? 0) ^ 0xff;
  expect(() => joinPortions([damaged, ...portions.slice(1)])).toThrow();
  // One that is missing is noticed by those that follow; the first ones alone are a shorter tape.
  expect(() => joinPortions([first, ...portions.slice(2)])).toThrow();
  expect(() => joinPortions(portions.slice(1))).toThrow();
});

it('cut after any portion, gives every reading that was kept with those before', async () => {
  const { readings, portions } = await recorded('line', well, { repeats: 1, recheck: false });
  const whole = levelsOf(readings);
  let most = 0;
  for (let count = 1; count <= portions.length; count += 5) {
    const found = levelsOf(await rereadTape(joinPortions(portions.slice(0, count))));
    expect(found).toEqual(whole.slice(0, found.length));
    expect(found.length).toBeGreaterThanOrEqual(count);
    most = found.length;
  }
  expect(most).toBeGreaterThan(40);
});

it('reads a tape of before there were portions', async () => {
  const { readings, tape } = await recorded('line', well);
  expect(await again(unpackTape(deflateSync(JSON.stringify(tape))))).toEqual(levelsOf(readings));
});
