import { afterEach, describe, expect, it } from 'vitest';
import type { Reading } from '../../../core/bridge/records.ts';
import { createMeterShop } from '../../../electron/backend/meters/connect.ts';
import { createLineLink } from '../../../electron/backend/meters/lines-over-bytes.ts';
import type { Meter } from '../../../electron/backend/meters/meter-shop.ts';
import type { Profile } from '../../../electron/backend/meters/profile.ts';
import { type Script, scriptedWire } from '../../support/scripted-wire.ts';

/** A meter that answers its own profile as it should, at 1/100 of the frequency in MHz: 711 MHz reads 7.11 dBmV. */
export type HealthyMeter = () => (line: string) => string | null;

const never = new AbortController().signal;
const plan = [57, 423, 711, 867];
/** The profile as it is, but for how long it rests, and waits for what a test will never answer. */
export const waiting = (profile: Profile, timeoutMs: number): Profile => ({
  ...profile,
  settleMs: 0,
  identify: { ...profile.identify, timeoutMs },
  level: profile.level === null ? null : { ...profile.level, timeoutMs },
  trace:
    profile.trace === null
      ? null
      : {
          ...profile.trace,
          set: { ...profile.trace.set, timeoutMs },
          read: { ...profile.trace.read, timeoutMs },
        },
  errorQueue:
    profile.errorQueue === null
      ? null
      : { ...profile.errorQueue, next: { ...profile.errorQueue.next, timeoutMs } },
});

/** Everything that must be true of every profile, whatever the meter behind it. */
export function meterSuite(profile: Profile, healthyMeter: HealthyMeter): void {
  const opened: (() => Promise<void>)[] = [];
  afterEach(async () => {
    await Promise.all(opened.splice(0).map((close) => close()));
  });

  const wired = (timeoutMs = 5000) => {
    const answer = healthyMeter();
    const healthy: Script = (line, { send }) => {
      const text = answer(line);
      if (text !== null) send(`${text}\n`);
    };
    const wire = scriptedWire(healthy);
    const shop = createMeterShop({
      now: () => new Date('2026-03-01T08:00:00Z'),
      profiles: [waiting(profile, timeoutMs)],
      recovery: null,
      openSerial: async (path, { lines }) => createLineLink(path, lines, wire.start),
    });
    const connect = async (): Promise<Meter> => {
      const meter = await shop.connect({ kind: 'serial', path: 'COM3', profile: profile.name }, never);
      opened.push(async () => {
        await meter.close();
        await meter.close();
        expect(wire.closedTimes(), 'the link was closed, once').toBe(1);
      });
      return meter;
    };
    return { wire, healthy, answer, connect };
  };

  /** The readings that came, and what ended them. */
  const readAll = async (meter: Meter, frequenciesMhz = plan, signal = never) => {
    const readings: Reading[] = [];
    try {
      for await (const reading of meter.readLevels(frequenciesMhz, signal)) readings.push(reading);
      return { readings, fault: null };
    } catch (fault) {
      return { readings, fault };
    }
  };
  /** Which question the tests spoil: the third that brings levels, or the one that brings a trace. */
  const brings = (line: string) =>
    line.startsWith((profile.trace?.read.ask ?? profile.level?.ask ?? '').split('{')[0] ?? '');
  const before = profile.trace === null ? 2 : 0;
  const levelsBefore = ['0.57', '4.23'].slice(0, before);
  const levelsOf = (readings: readonly Reading[]) => readings.map(({ meterDbmv }) => meterDbmv?.toFixed(2));

  describe(`profile ${profile.name}`, () => {
    it('tells who the meter is', async () => {
      const meter = await wired().connect();
      expect(Object.values(meter.identity).every((part) => part !== '')).toBe(true);
      expect(meter.profileName).toBe(profile.name);
    });

    it('reads a level for each frequency, in order, in dBmV, with its time', async () => {
      const { readings, fault } = await readAll(await wired().connect());
      expect(fault).toBeNull();
      expect(readings.map(({ frequencyMhz }) => frequencyMhz)).toEqual(plan);
      expect(levelsOf(readings)).toEqual(['0.57', '4.23', '7.11', '8.67']);
      expect(readings[0]?.takenAt).toBe('2026-03-01T08:00:00.000Z');
    });

    it('names a meter that is silent from the start, and closes its link', async () => {
      const { wire, connect } = wired(200);
      wire.play(() => undefined);
      await expect(connect()).rejects.toMatchObject({ code: 'silent', where: 'COM3' });
      expect(wire.closedTimes()).toBe(1);
    });

    it('ends the session of a meter that falls silent in half a line, and keeps what was read', async () => {
      const { wire, connect, healthy, answer } = wired(1000);
      const meter = await connect();
      let questions = 0;
      wire.play((line, farEnd) => {
        if (brings(line)) questions += 1;
        if (questions <= before) healthy(line, farEnd);
        else if (brings(line)) farEnd.send((answer(line) ?? '').slice(0, 9));
        else healthy(line, farEnd);
      });
      const { readings, fault } = await readAll(meter);
      expect(fault).toMatchObject({ code: 'silent' });
      expect(levelsOf(readings)).toEqual(levelsBefore);
      expect((await meter.lost).help).toMatch(/does not answer/);
    });

    it('asks once more after garbage', async () => {
      const { wire, connect, healthy } = wired();
      const meter = await connect();
      let questions = 0;
      wire.play((line, farEnd) => {
        questions += 1;
        if (questions === 1) farEnd.send('\xf8\x80garb,age\n');
        else healthy(line, farEnd);
      });
      const { readings, fault } = await readAll(meter);
      expect(fault).toBeNull();
      expect(levelsOf(readings)).toEqual(['0.57', '4.23', '7.11', '8.67']);
    });

    it('gives up after garbage twice, and shows it', async () => {
      const { wire, connect } = wired();
      const meter = await connect();
      wire.play((_line, { send }) => send('12,5 Volt\n'));
      const { readings, fault } = await readAll(meter);
      expect(readings).toEqual([]);
      expect(fault).toMatchObject({ code: 'not-understood', help: expect.stringContaining('12,5 Volt') });
    });

    it('takes an answer in whatever pieces', async () => {
      const { wire, connect, answer } = wired();
      const meter = await connect();
      wire.play((line, { send }) => {
        for (const character of `${answer(line)}\r\n`) send(character);
      });
      expect(levelsOf((await readAll(meter)).readings)).toEqual(['0.57', '4.23', '7.11', '8.67']);
    });

    it('never takes a cut answer for a level, whether its end is missing or was lost on the way', async () => {
      const length = await answerLength();
      expect(length).toBeGreaterThan(3);
      const cuts = Array.from({ length: length - 1 }, (_, i) => i + 1);
      await Promise.all(
        cuts.flatMap((cut) => [
          readCut((text) => text.slice(0, cut), 'lost'),
          readCut((text) => `${text.slice(0, cut)}\n`),
        ]),
      );
    });

    it('never takes an answer that lost its beginning for a level', async () => {
      const cuts = Array.from({ length: (await answerLength()) - 1 }, (_, i) => i + 1);
      await Promise.all(cuts.map((cut) => readCut((text) => `${text.slice(cut)}\n`)));
    });

    it('never joins half an answer of the session before to one of this', async () => {
      const { wire, connect } = wired();
      const opening = connect();
      wire.farEnd.send('711000000;-77');
      const meter = await opening;
      expect(JSON.stringify(meter.identity)).not.toContain('-77');
      expect(levelsOf((await readAll(meter)).readings)).toEqual(['0.57', '4.23', '7.11', '8.67']);
    });

    it('is lost when it is unplugged in the middle, and what was read stays', async () => {
      const { wire, connect, healthy } = wired();
      const meter = await connect();
      let questions = 0;
      wire.play((line, farEnd) => {
        if (brings(line)) questions += 1;
        if (questions <= before) healthy(line, farEnd);
        else farEnd.unplug();
      });
      const { readings, fault } = await readAll(meter);
      expect(fault).toMatchObject({ code: 'lost' });
      expect(levelsOf(readings)).toEqual(levelsBefore);
      expect((await meter.lost).help).not.toBe('');
    });

    it('stops at once when it is told to, and puts the answer that comes late in no other place', async () => {
      const { wire, connect, healthy, answer } = wired();
      const meter = await connect();
      const stop = new AbortController();
      let late = '';
      wire.play((line) => {
        late = `${answer(line)}\n`;
        setImmediate(() => stop.abort());
      });
      // It ends though the meter has not answered yet.
      expect(await readAll(meter, plan, stop.signal)).toEqual({ readings: [], fault: null });
      const saidBefore = wire.said.length;
      wire.play(healthy);
      const again = readAll(meter);
      await new Promise((resolve) => setTimeout(resolve, 20));
      expect(wire.said.length, 'the next question waits for the late answer').toBe(saidBefore);
      wire.farEnd.send(late);
      expect(levelsOf((await again).readings)).toEqual(['0.57', '4.23', '7.11', '8.67']);
    });

    it('reads nothing when it is stopped before it begins', async () => {
      const { wire, connect } = wired();
      const meter = await connect();
      const saidBefore = wire.said.length;
      expect(await readAll(meter, plan, AbortSignal.abort())).toEqual({ readings: [], fault: null });
      expect(wire.said.length).toBe(saidBefore);
    });
  });

  async function answerLength(): Promise<number> {
    const { wire, connect, answer } = wired();
    const meter = await connect();
    let length = 0;
    wire.play((line, { send }) => {
      const text = answer(line) ?? '';
      length = text.length;
      send(`${text}\n`);
    });
    await readAll(meter, [711]);
    return length;
  }

  /** Reads 711 MHz with every answer spoiled; nothing may be taken for a reading. `lost`: and then the wire goes. */
  async function readCut(
    spoil: (text: string) => string,
    code: 'lost' | 'not-understood' = 'not-understood',
  ) {
    const { wire, connect, answer } = wired();
    const meter = await connect();
    const spoiled: string[] = [];
    wire.play((line, farEnd) => {
      const text = spoil(answer(line) ?? '');
      spoiled.push(text);
      farEnd.send(text);
      if (code === 'lost') farEnd.unplug();
    });
    const { readings, fault } = await readAll(meter, [711]);
    expect(readings, `taken from ${JSON.stringify(spoiled)}`).toEqual([]);
    expect(fault).toMatchObject({ code });
  }
}
