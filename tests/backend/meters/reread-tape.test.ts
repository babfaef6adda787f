import { deflateSync } from 'node:zlib';
import { expect, it } from 'vitest';
import { knownProfiles } from '../../../electron/backend/meters/known-profiles.ts';
import { rereadTape, TapeMismatch } from '../../../electron/backend/meters/reread-tape.ts';
import { joinPortions, type Tape, unpackTape } from '../../../electron/backend/meters/tape.ts';
import { levelsOf, recordedPlan, recordedSweep, well } from '../../support/recorded-sweep.ts';

const again = async (tape: Tape) => levelsOf(await rereadTape(tape));

it.each(knownProfiles.map(({ name }) => name))(
  'reads the same levels again from the bytes: %s',
  async (name) => {
    const { readings, fault, tape } = await recordedSweep(name, well);
    expect(fault).toBeNull();
    expect(readings).toHaveLength(recordedPlan.length);
    expect(await again(tape)).toEqual(levelsOf(readings));
  },
);

it.each(['scpi', 'line-checked'])(
  'reads the same again through garbage, cut answers, silence, late answers and a cable that was pulled: %s',
  async (name) => {
    const { readings, fault, tape } = await recordedSweep(name, (answer, count, { send, unplug }) => {
      if (count === 5) return send(`\xf8\x80${answer}`);
      if (count === 11) return send(answer.slice(0, 7));
      if (count === 20) return void setTimeout(() => send(answer), 190);
      if (count === 31) return unplug();
      if (count === 40) return send(answer.replace(/\d\.\d/, '9.9'));
      send(answer);
    });
    expect(fault).toBeNull();
    expect(tape.sessions.length).toBeGreaterThan(1);
    const kinds = tape.sessions.flatMap(({ entries }) => entries.map(([what]) => what));
    expect(kinds.filter((what) => what === 'gave-up').length).toBeGreaterThan(0);
    expect(readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual(recordedPlan);
    expect(await again(tape)).toEqual(levelsOf(readings));
  },
);

it.each(['line', 'scpi-trace', 'scpi-trace-block'])(
  'reads the same again where many readings make one: %s',
  async (name) => {
    const once = await recordedSweep(name, well, { repeats: 1, recheck: false });
    const { readings, tape } = await recordedSweep(name, well, { repeats: 3, recheck: true });
    const heard = ({ sessions }: typeof tape) =>
      sessions[0]?.entries.filter(([what]) => what === 'said').length ?? 0;
    expect(heard(tape)).toBeGreaterThan(2 * heard(once.tape));
    expect(await again(tape)).toEqual(levelsOf(readings));
  },
);

it('gives no reading for an answer that came only after it was given up', async () => {
  const { tape } = await recordedSweep('line', well, { repeats: 1, recheck: false }, [57]);
  const [session] = tape.sessions;
  if (session === undefined) throw new Error('no session');
  expect(await again(tape)).toHaveLength(1);
  const entries = session.entries.flatMap((entry) =>
    entry[0] === 'heard' ? [['gave-up', entry[1], ''] satisfies typeof entry, entry] : [entry],
  );
  expect(await again({ ...tape, sessions: [{ ...session, entries }] })).toEqual([]);
});

it('notices a tape whose questions are not those of its profile', async () => {
  const { tape } = await recordedSweep('line', well);
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
  const { portions } = await recordedSweep('scpi', well);
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
  const { readings, portions } = await recordedSweep('line', well, { repeats: 1, recheck: false });
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
  const { readings, tape } = await recordedSweep('line', well);
  expect(await again(unpackTape(deflateSync(JSON.stringify(tape))))).toEqual(levelsOf(readings));
});
