import { packRice, unpackFirst, unpackRice } from './rice.ts';
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

const zigzag = (value: number): number => (value < 0 ? -2 * value - 1 : 2 * value);
const unzigzag = (code: number): number => (code % 2 === 0 ? code / 2 : -((code + 1) / 2));

/** What all levels are a multiple of: a meter of tenths needs no thousandths. */
function unitOf(readings: readonly KeptReading[]): number {
  let unit = 0;
  for (const { meterMdbmv } of readings) if (meterMdbmv !== null) unit = divisor(Math.abs(meterMdbmv), unit);
  if (!Number.isSafeInteger(unit)) throw new RangeError('a level is no whole number of thousandths');
  return Math.max(unit, 1);
}

/** Steps from one level to the next; 0 means that there is no level, so every step is one further. */
function levelCodes(readings: readonly KeptReading[], unit: number): number[] {
  let before = 0;
  return readings.map(({ meterMdbmv }) => {
    if (meterMdbmv === null) return 0;
    const step = (meterMdbmv - before) / unit;
    before = meterMdbmv;
    return 1 + zigzag(step);
  });
}

/**
 * Readings in few bytes, exact both ways: levels as steps from the one before, in units of what all of them are a
 * multiple of; times as changes of pace, or as one pace where it never changes; kinds as runs.
 * @param readings  in the order in which they were taken; Hz, thousandths of a dBmV, ms since 1970
 * @returns  two parts; equal readings give equal bytes
 * @throws   RangeError for a number that is not whole
 * @source   differences as zigzag numbers in Rice's code: common practice, no published source for this use
 */
export function packReadings(readings: readonly KeptReading[]): PackedReadings {
  const out = createVarintWriter();
  const unit = unitOf(readings);
  out.unsigned(FORM);
  out.unsigned(unit);
  const times = readings.map(({ takenAtMs }) => takenAtMs);
  const paces = times.slice(1).map((time, i) => time - (times[i] ?? 0));
  const pace = paces[0] ?? 0;
  const steady = paces.every((each) => each === pace);
  out.signed(times[0] ?? 0);
  out.unsigned(steady ? 0 : 1);
  out.signed(pace);
  for (let from = 0; from < readings.length; ) {
    const kind = readings[from]?.kind ?? null;
    let to = from;
    while (to < readings.length && (readings[to]?.kind ?? null) === kind) to += 1;
    out.unsigned(kinds.indexOf(kind));
    out.unsigned(to - from);
    from = to;
  }
  const changes = paces.slice(1).map((each, i) => zigzag(each - (paces[i] ?? 0)));
  const bits = packRice(steady ? [levelCodes(readings, unit)] : [levelCodes(readings, unit), changes]);
  const head = out.bytes();
  const body = new Uint8Array(head.length + bits.length);
  body.set(head);
  body.set(bits, head.length);
  return { frequencies: packFrequencies(readings), body };
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

/** What comes before the bits: the unit of the levels, how the times go, and the kinds. */
function headOf(body: Uint8Array, count: number) {
  const input = form(body);
  const unit = input.unsigned();
  const takenAtMs = input.signed();
  const manner = input.unsigned();
  if (manner > 1) throw new RangeError('the times of the packed readings are damaged');
  const pace = input.signed();
  const kindOf: KeptReading['kind'][] = [];
  while (kindOf.length < count) {
    const kind = kinds[input.unsigned()];
    const run = input.unsigned();
    if (kind === undefined || kind === kindOf.at(-1) || run === 0 || run > count - kindOf.length)
      throw new RangeError('the kinds of the packed readings are damaged');
    for (let i = 0; i < run; i += 1) kindOf.push(kind);
  }
  return { unit, takenAtMs, isSteady: manner === 0, pace, kindOf, bits: input.rest() };
}

/** Codes are steps from one level to the next, 0 where there is none. */
function levelsOf(codes: readonly number[], unit: number): readonly (number | null)[] {
  let level = 0;
  return codes.map((code) => {
    if (code === 0) return null;
    level += unit * unzigzag(code - 1);
    return level;
  });
}

/**
 * The readings that were packed, exactly.
 * @param listHz  the list's frequencies in Hz, from `unpackFrequencies`
 * @param body    what was read there
 * @throws  RangeError when the bytes are damaged or belong to another list
 * @source  as `packReadings`
 */
export function unpackReadings(listHz: readonly number[], body: Uint8Array): readonly KeptReading[] {
  const count = listHz.length;
  const { unit, takenAtMs, isSteady, pace, kindOf, bits } = headOf(body, count);
  const [codes = [], changes = []] = unpackRice(bits, isSteady ? [count] : [count, Math.max(0, count - 2)]);
  const levels = levelsOf(codes, unit);
  let atMs = takenAtMs;
  let paceMs = pace;
  return listHz.map((frequencyHz, i) => {
    if (i > 0) atMs += paceMs;
    // The change between this pace and the next one.
    if (i > 0) paceMs += unzigzag(changes[i - 1] ?? 0);
    return { frequencyHz, meterMdbmv: levels[i] ?? null, kind: kindOf[i] ?? null, takenAtMs: atMs };
  });
}

/** Levels without their times: what a sweep is judged by. */
export type KeptLevels = Readonly<{
  /** Thousandths of a dBmV at the meter, as many as frequencies; null where it has no level. */
  meterMdbmv: readonly (number | null)[];
  kindOf: readonly KeptReading['kind'][];
}>;

/**
 * The levels alone, for whoever looks at those of thousands of sweeps; the times are not read, nor checked.
 * @param listHz  the list's frequencies in Hz
 * @param body    what was read there
 * @throws  RangeError when the bytes are damaged before the times begin
 * @source  as `packReadings`
 */
export function unpackLevels(listHz: readonly number[], body: Uint8Array): KeptLevels {
  const { unit, kindOf, bits } = headOf(body, listHz.length);
  return { meterMdbmv: levelsOf(unpackFirst(bits, listHz.length), unit), kindOf };
}
