import type { WireStart } from '../electron/backend/meters/byte-wire.ts';
import { createMeterShop } from '../electron/backend/meters/connect.ts';
import { createLineLink } from '../electron/backend/meters/lines-over-bytes.ts';
import { type Instrument, SimulatedInstrument } from '../electron/backend/meters/simulated/instrument.ts';

const READING_MS = 20;
const CHANNELS = 158;
/** Start, eight data bits, stop. */
const BITS_A_BYTE = 10;

/** The meter's own: how long it and its line had each question, from its first byte to the last of its answer. */
type MeterClock = { spentMs: number; questions: number };

/**
 * A wire as slow as its speed and a meter as slow as its settling: the bytes of each question, the reading, the bytes of
 * each answer. That a timer comes a little late is the meter's own slowness, and on its clock.
 */
function slowWire(instrument: Instrument, baudRate: number, clock: MeterClock): WireStart {
  return (events) => {
    const onWire = (bytes: number) => (bytes * BITS_A_BYTE * 1000) / baudRate;
    return {
      write(bytes, taken) {
        const { answer, readings } = instrument.take(Buffer.from(bytes).toString('latin1').trim());
        const answered = answer === null ? null : Buffer.from(`${answer}\n`, 'latin1');
        const neededMs =
          onWire(bytes.length) + readings * READING_MS + (answered === null ? 0 : onWire(answered.length));
        const atMs = performance.now();
        taken();
        if (answered === null) return;
        setTimeout(() => {
          clock.spentMs += performance.now() - atMs;
          clock.questions += 1;
          events.bytes(answered);
        }, neededMs);
      },
      close: async () => undefined,
    };
  };
}

export type SweepBench = Readonly<{ baudRate: number; wallMs: number; neededMs: number; ratio: number }>;

/** How long a sweep takes, against what one question a channel needs on that line with that meter. */
export async function sweepBench(baudRate: number): Promise<SweepBench> {
  const level = (mhz: number) => 20 + mhz / 100;
  const frequenciesMhz = Array.from({ length: CHANNELS }, (_, i) => 57 + 6 * i);
  const clock: MeterClock = { spentMs: 0, questions: 0 };
  const shop = createMeterShop({
    now: () => new Date(),
    openSerial: async (path, { lines }) =>
      createLineLink(path, lines, slowWire(new SimulatedInstrument({ source: level }), baudRate, clock)),
  });
  const never = new AbortController().signal;
  const meter = await shop.connect({ kind: 'serial', path: 'bench', profile: 'scpi' }, never);
  clock.spentMs = 0;
  clock.questions = 0;
  const startMs = performance.now();
  let count = 0;
  const manner = { repeats: 1, recheck: true };
  for await (const _reading of meter.readLevels(frequenciesMhz, never, { manner })) count += 1;
  const wallMs = performance.now() - startMs;
  await meter.close();
  // One question a channel is needed; a doubtful reading is asked again on our account.
  const neededMs = (clock.spentMs * CHANNELS) / clock.questions;
  if (count !== CHANNELS) throw new Error(`${count} of ${CHANNELS} channels were read`);
  return { baudRate, wallMs, neededMs, ratio: wallMs / neededMs };
}
