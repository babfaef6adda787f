import { z } from 'zod';
import { Station } from '../files/station.ts';
import { StationNotes } from '../files/station-notes.ts';
import type { PlainObject } from '../records/canonical-text.ts';
import { done, type Result, refuse } from '../result.ts';
import { MeterChoice, MeterIdentity } from './records.ts';
import { SetUpPlan, StepValues } from './set-up-calls.ts';

const Values = z.record(z.string(), z.number());
const Readings = z.looseObject({
  frequencyHz: z.array(z.number()),
  meterMdbmv: z.array(z.number().nullable()),
  kind: z.array(z.unknown()),
  takenAtMs: z.array(z.number()),
});
const Live = z.looseObject({
  elapsedMs: z.array(z.number()),
  meterMdbmv: z.array(z.number().nullable()),
  takenAtMs: z.array(z.number()),
});

/** Texts that are JSON in themselves, by what they must be. */
const texts: Readonly<Record<string, Readonly<Record<string, z.ZodType>>>> = {
  design: { design: Station },
  notes: { notes: StationNotes },
  proposal: { plugIns: Values },
  'set-up': { plan: SetUpPlan },
  'set-up-event': { entered: StepValues },
  live: { meter: MeterIdentity, pluggedIn: Values },
  watch: { frequencies: z.array(z.int().min(1)) },
};

type Says = string | null;

function jsonSays(kind: string, document: PlainObject): Says {
  for (const [key, schema] of Object.entries(texts[kind] ?? {})) {
    const text = document[key];
    if (typeof text !== 'string') continue;
    try {
      const read = schema.safeParse(JSON.parse(text));
      if (!read.success) return `${key}: ${read.error.issues[0]?.message ?? 'not as it must be'}`;
    } catch {
      return `${key}: no JSON`;
    }
  }
  return null;
}

const sameLength = (lists: readonly (readonly unknown[])[], count: number): boolean =>
  lists.every(({ length }) => length === count);

/** One number has one spelling. */
const isMisspelled = (value: unknown): boolean => String(Number(value)) !== value;

function sweepSays(document: PlainObject): Says {
  const { meter, source, pluggedIn, end, plannedCount } = document;
  if ((source === 'meter') !== (meter !== null))
    return 'meter: one is named where a meter read it, and only there';
  if (meter !== null && !MeterIdentity.safeParse(meter).success) return 'meter: not an identity';
  const odd = Object.values(pluggedIn ?? {}).find(isMisspelled);
  if (odd !== undefined) return `pluggedIn: ${String(odd)} is not how a value is written`;
  const { frequencyHz, meterMdbmv, kind, takenAtMs } = Readings.parse(document.readings);
  const count = frequencyHz.length;
  if (!sameLength([meterMdbmv, kind, takenAtMs], count)) return 'readings: its lists differ in length';
  const { state, readingCount, reason, recovered } = z.looseObject({}).parse(end);
  if (readingCount !== count) return `end: counts ${String(readingCount)} readings, and there are ${count}`;
  if (state === 'complete' && plannedCount !== count) return 'end: complete, and readings are missing';
  if ((state === 'complete') !== (reason === null))
    return 'end: a reason is told where it is partial, and only there';
  return recovered === 1 && state === 'complete' ? 'end: complete, and cut short' : null;
}

function liveSays(document: PlainObject): Says {
  const { elapsedMs, meterMdbmv, takenAtMs } = Live.parse(document.readings);
  const { readingCount } = z.looseObject({}).parse(document.end);
  if (!sameLength([meterMdbmv, takenAtMs], elapsedMs.length)) return 'readings: its lists differ in length';
  return readingCount === elapsedMs.length ? null : 'end: counts other readings than there are';
}

const Watch = z.looseObject({
  rounds: z.looseObject({
    round: z.array(z.number()),
    rounds: z.array(z.number()),
    gap: z.array(z.string().nullable()),
    takenAtMs: z.array(z.number()),
    session: z.array(z.string()),
  }),
  levels: z.looseObject({
    round: z.array(z.number()),
    place: z.array(z.number()),
    meterMdbmv: z.array(z.number().nullable()),
  }),
  meters: z.array(z.looseObject({ choice: z.string(), meter: z.string() })),
});

function watchSays(document: PlainObject): Says {
  const { rounds, levels, meters } = Watch.parse(document);
  const { round, gap } = rounds;
  if (!sameLength([rounds.rounds, gap, rounds.takenAtMs, rounds.session], round.length))
    return 'rounds: its lists differ in length';
  if (!sameLength([levels.place, levels.meterMdbmv], levels.round.length))
    return 'levels: its lists differ in length';
  const isAfter = (i: number) => {
    const [before, now] = [i - 1, i].map((at) => [levels.round[at] ?? 0, levels.place[at] ?? 0] as const);
    return (
      before === undefined ||
      now === undefined ||
      now[0] - before[0] > 0 ||
      (now[0] === before[0] && now[1] > before[1])
    );
  };
  if (levels.round.some((_, i) => i > 0 && !isAfter(i))) return 'levels: not in their order';
  for (const { choice, meter } of meters) {
    const read = [MeterChoice.safeParse(parsed(choice)), MeterIdentity.safeParse(parsed(meter))];
    if (read.some(({ success }) => !success)) return 'meters: not a meter';
  }
  return null;
}

const parsed = (text: string): unknown => {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
};

function says(kind: string, document: PlainObject): Says {
  const text = jsonSays(kind, document);
  if (text !== null) return text;
  if (kind === 'sweep') return sweepSays(document);
  if (kind === 'live') return liveSays(document);
  if (kind === 'watch') return watchSays(document);
  const odd = kind === 'fitting' ? [document.from, document.to].find(isMisspelled) : undefined;
  return odd === undefined ? null : `from, to: ${String(odd)} is not how a value is written`;
}

/**
 * Whether what a record holds can be shown and kept: a design that is a station file, lists of one length, an end that
 * counts what is there. Its form is checked before, by `checkedRecord`.
 * @param document  of that kind, its form checked
 * @param where     named in a refusal: the file and the line
 * @returns  nothing, or what is wrong
 * @source   this project's own form of a record; no published source
 */
export function checkedContents(
  kind: string,
  document: PlainObject,
  where: string,
): Result<null, 'not-a-record'> {
  const odd = says(kind, document);
  return odd === null ? done(null) : refuse('not-a-record', where, odd);
}
