import { type Instrument, SimulatedInstrument } from '../../electron/backend/meters/simulated/instrument.ts';
import type { Cable } from '../../electron/backend/meters/simulated/pty.ts';

/** Everything that a cable, an adapter or a meter does to an answer. */
export const allFaults = [
  'delay',
  'drop',
  'half',
  'corrupt',
  'garble',
  'lose-byte',
  'duplicate',
  'reorder',
  'pieces',
  'noise',
  'endless',
  'reset',
  'other-unit',
  'overload',
  'queue-full',
] as const;
export type Fault = (typeof allFaults)[number];

/**
 * What an answer of this profile can suffer and still be told from a good one. Without a checksum a digit that becomes another
 * digit, or is lost, can't be; in a binary number no byte can.
 */
export function tellableFaults(profileName: string): readonly Fault[] {
  if (profileName === 'line-checked') return allFaults;
  const silent: readonly Fault[] =
    profileName === 'scpi-trace-block' ? ['corrupt', 'lose-byte', 'garble'] : ['corrupt', 'lose-byte'];
  return allFaults.filter((fault) => !silent.includes(fault));
}

/** The meter's own word for too much at its input. */
const OVERLOAD = 301;

export type Hostile = Readonly<{
  cable: Cable;
  /** Takes the place of the meter: answers as it does, but for what a fault makes of its state. */
  instrument: Instrument;
  /** How often each fault struck. */
  counts: ReadonlyMap<Fault, number>;
}>;

/**
 * A meter at the end of a bad cable.
 * @param next   which fault strikes the next answer: by chance, or by a script
 * @param create a meter that has just been switched on
 * @param chance where in the answer it strikes
 */
export function createHostile(
  next: () => Fault | null,
  create: () => Instrument,
  chance: () => number,
  delayMs = 30,
): Hostile {
  const counts = new Map<Fault, number>();
  let instrument = create();
  let overloaded = 0;
  let held: Uint8Array | null = null;
  const somewhere = (bytes: Uint8Array) => Math.floor(chance() * Math.max(1, bytes.length - 1));

  /** What arrives in place of the answer, in order. */
  const harmed = (fault: Fault, answer: Uint8Array): readonly Uint8Array[] => {
    const at = somewhere(answer);
    switch (fault) {
      case 'delay':
      case 'drop':
      case 'reorder':
        return [];
      case 'half':
        return [answer.slice(0, at)];
      case 'corrupt': {
        const other = answer.slice();
        other[at] = 0x20 + Math.floor(chance() * 0x5f);
        return [other];
      }
      case 'garble': {
        // A byte of another parity.
        const other = answer.slice();
        other[at] = (other[at] ?? 0) ^ 0x80;
        return [other];
      }
      case 'lose-byte':
        return [answer.slice(0, at), answer.slice(at + 1)];
      case 'duplicate':
        return [answer, answer];
      case 'pieces':
        return Array.from(answer, (byte) => Uint8Array.of(byte));
      case 'noise':
        return [Uint8Array.of(0xff, 0x00, 0xf8, 0x80), answer];
      case 'endless':
        return [Buffer.alloc(5000, 0xff)];
      case 'reset':
        instrument = create();
        return [answer.slice(0, at), Buffer.from('\r\nReady\r\n')];
      case 'other-unit':
        instrument.take('UNIT:POW DBUV');
        return [answer];
      case 'overload':
        overloaded = 1;
        return [answer];
      case 'queue-full':
        for (let i = 0; i < 40; i += 1) instrument.take('NO:SUCH');
        return [answer];
    }
  };

  return {
    counts,
    instrument: {
      take(line) {
        // An overload that passes: the meter says so once, in its own way.
        if (overloaded > 0 && /READ|INIT/.test(line)) {
          overloaded -= 1;
          if (!(instrument instanceof SimulatedInstrument))
            return { answer: 'ERR 3 overload', readings: 1, points: 0 };
          instrument.report(OVERLOAD);
        }
        return instrument.take(line);
      },
      overrun: () => instrument.overrun(),
    },
    cable(answer, arrive) {
      const waiting = held;
      held = null;
      const fault = next();
      if (fault !== null) counts.set(fault, (counts.get(fault) ?? 0) + 1);
      if (fault === 'delay') setTimeout(() => arrive(answer), delayMs);
      if (fault === 'reorder') held = answer;
      for (const bytes of fault === null ? [answer] : harmed(fault, answer)) arrive(bytes);
      if (waiting !== null) arrive(waiting);
    },
  };
}
