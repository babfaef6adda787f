import { createVarintReader, createVarintWriter } from './varint.ts';

/** A reading as a record holds it. */
export type KeptReading = Readonly<{
  frequencyHz: number;
  /** Thousandths of a dBmV at the meter; null when it answered that it has no level there. */
  meterMdbmv: number | null;
  kind: 'analog' | 'qam' | 'ofdm' | 'cw' | null;
  /** Milliseconds since 1970 UTC. */
  takenAtMs: number;
}>;

/** The readings of a sweep: which frequencies, shared by all sweeps that read the same ones, and what was read there. */
export type PackedReadings = Readonly<{ frequencies: Uint8Array; body: Uint8Array }>;

/** The first byte of each part; readings of another form are told by it. */
const FORM = 1;
/** Never reordered: the place in this list is what is kept. */
const kinds = [null, 'analog', 'qam', 'ofdm', 'cw'] as const;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

function packFrequencies(readings: readonly KeptReading[]): Uint8Array {
  const out = createVarintWriter();
  out.unsigned(FORM);
  out.unsigned(readings.length);
  let before = 0;
  for (const { frequencyHz } of readings) {
    out.signed(frequencyHz - before);
    before = frequencyHz;
  }
  return out.bytes();
}

/**
 * Readings in few bytes, exact both ways: levels as steps from the one before, in units of what all of them are a
 * multiple of; times as changes of pace, or as one pace where it never changes; kinds as runs.
 * @param readings  in the order in which they were taken; Hz, thousandths of a dBmV, ms since 1970
 * @returns  two parts; equal readings give equal bytes
 * @throws   RangeError for a number that is not whole
 * @source   zigzag and LEB128 numbers of differences: common practice, no published source
 */
export function packReadings(readings: readonly KeptReading[]): PackedReadings {
  const out = createVarintWriter();
  out.unsigned(FORM);
  let unit = 0;
  for (const { meterMdbmv } of readings) if (meterMdbmv !== null) unit = divisor(Math.abs(meterMdbmv), unit);
  if (!Number.isSafeInteger(unit)) throw new RangeError('a level is no whole number of thousandths');
  unit = Math.max(unit, 1);
  out.unsigned(unit);
  let levelBefore = 0;
  for (const { meterMdbmv } of readings) {
    if (meterMdbmv === null) {
      out.unsigned(0);
      continue;
    }
    const step = (meterMdbmv - levelBefore) / unit;
    // 0 means that there is no level, so every step is one further.
    out.unsigned(1 + (step < 0 ? -2 * step - 1 : 2 * step));
    levelBefore = meterMdbmv;
  }
  const times = readings.map(({ takenAtMs }) => takenAtMs);
  const paces = times.slice(1).map((time, i) => time - (times[i] ?? 0));
  const pace = paces[0] ?? 0;
  const steady = paces.every((each) => each === pace);
  out.signed(times[0] ?? 0);
  out.unsigned(steady ? 0 : 1);
  if (steady) out.signed(pace);
  else {
    let before = 0;
    for (const each of paces) {
      out.signed(each - before);
      before = each;
    }
  }
  for (let from = 0; from < readings.length; ) {
    const kind = readings[from]?.kind ?? null;
    let to = from;
    while (to < readings.length && (readings[to]?.kind ?? null) === kind) to += 1;
    out.unsigned(kinds.indexOf(kind));
    out.unsigned(to - from);
    from = to;
  }
  return { frequencies: packFrequencies(readings), body: out.bytes() };
}

function form(bytes: Uint8Array) {
  const input = createVarintReader(bytes);
  const found = input.unsigned();
  if (found !== FORM) throw new RangeError(`packed readings of an unknown form ${found}`);
  return input;
}

/**
 * The frequencies of a list, in Hz, in their order.
 * @throws  RangeError when the bytes are no such list
 * @source  as `packReadings`
 */
export function unpackFrequencies(frequencies: Uint8Array): readonly number[] {
  const input = form(frequencies);
  const count = input.unsigned();
  // Each takes a byte at least, so that damaged bytes can't ask for more than they are.
  if (count > frequencies.length) throw new RangeError('the list of frequencies ends too early');
  const listHz: number[] = [];
  let before = 0;
  for (let i = 0; i < count; i += 1) {
    before += input.signed();
    listHz.push(before);
  }
  if (!input.atEnd()) throw new RangeError('the list of frequencies goes on after its end');
  return listHz;
}

/**
 * The readings that were packed, exactly.
 * @param listHz  the list's frequencies in Hz, from `unpackFrequencies`
 * @param body    what was read there
 * @throws  RangeError when the bytes are damaged or belong to another list
 * @source  as `packReadings`
 */
export function unpackReadings(listHz: readonly number[], body: Uint8Array): readonly KeptReading[] {
  const input = form(body);
  const unit = input.unsigned();
  const levels: (number | null)[] = [];
  let level = 0;
  for (let i = 0; i < listHz.length; i += 1) {
    const code = input.unsigned();
    if (code !== 0) level += unit * (code % 2 === 1 ? (code - 1) / 2 : -(code / 2));
    levels.push(code === 0 ? null : level);
  }
  let takenAtMs = input.signed();
  const manner = input.unsigned();
  if (manner > 1) throw new RangeError('the times of the packed readings are damaged');
  const steady = manner === 0;
  let pace = steady ? input.signed() : 0;
  const times = [takenAtMs];
  for (let i = 1; i < listHz.length; i += 1) {
    if (!steady) pace += input.signed();
    takenAtMs += pace;
    times.push(takenAtMs);
  }
  const readings: KeptReading[] = [];
  while (readings.length < listHz.length) {
    const kind = kinds[input.unsigned()];
    const run = input.unsigned();
    if (
      kind === undefined ||
      kind === readings.at(-1)?.kind ||
      run === 0 ||
      run > listHz.length - readings.length
    )
      throw new RangeError('the kinds of the packed readings are damaged');
    for (let i = readings.length, end = i + run; i < end; i += 1)
      readings.push({
        frequencyHz: listHz[i] ?? 0,
        meterMdbmv: levels[i] ?? null,
        kind,
        takenAtMs: times[i] ?? 0,
      });
  }
  if (!input.atEnd()) throw new RangeError('the packed readings go on after their end');
  return readings;
}
