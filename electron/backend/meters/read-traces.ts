import type { Reading } from '../../../core/bridge/records.ts';
import { isDoubtful, isSameReading, meanLevel, middleReading } from '../../../core/meters/repeated-level.ts';
import { readTraceBlock } from '../../../core/meters/trace-block.ts';
import { readTraceList } from '../../../core/meters/trace-list.ts';
import { type TraceSpan, traceSpans } from '../../../core/meters/trace-spans.ts';
import { refuse } from '../../../core/result.ts';
import { askMeter, type Fields, notUnderstood, patiently, rest } from './ask-meter.ts';
import { drainErrors, errorIn, explained, meterError } from './error-queue.ts';
import { MeterFault } from './meter-shop.ts';
import { aboutSpan } from './placeholders.ts';
import type { Trace } from './profile.ts';
import type { Manner } from './read-carefully.ts';
import { outOfReach, type Ready, unlessStopped } from './read-levels.ts';
import { isPossible, levelOf, unitIn } from './sense.ts';

/** Between the points of a span that holds one planned frequency. */
const LONE_STEP_HZ = 100_000;
/** A header of a block says its own length; more than this is none. */
const BYTES_A_POINT = { real32: 4, real64: 8 } as const;

/**
 * Reads a plan by traces: as few spans as hold every planned frequency on a point of their own, from the lowest up.
 * Gives the planned points, each once; ends and throws as `readLevels` does.
 */
export async function* readTraces(
  ready: Ready,
  trace: Trace,
  frequenciesMhz: readonly number[],
  manner: Manner,
): AsyncGenerator<Reading, void> {
  const { talk, profile } = ready;
  const { limits } = profile;
  const beyond = frequenciesMhz.find((mhz) => mhz < limits.lowestMhz || mhz > limits.highestMhz);
  if (beyond !== undefined) throw outOfReach(talk, profile, beyond);
  const hertz = frequenciesMhz.map((frequencyMhz) => Math.round(frequencyMhz * 1e6));
  for (const span of traceSpans(hertz, trace.leastPoints, trace.mostPoints, LONE_STEP_HZ)) {
    const levels = await unlessStopped(talk.signal, () => readWanted(ready, trace, span, manner));
    if (levels === null) return;
    const takenAt = ready.now().toISOString();
    for (const [at, { hz }] of span.wanted.entries()) {
      if (talk.signal.aborted) return;
      // A frequency that is planned twice is read twice, from the same trace.
      for (const frequencyMhz of frequenciesMhz.filter((_, i) => hertz[i] === hz))
        yield { frequencyMhz, meterDbmv: levels[at] ?? null, kind: null, takenAt };
    }
  }
}

type Levels = readonly (number | null)[];

/**
 * The levels at the planned points of a span: each the mean of as many traces as were wished. A trace with a doubtful level
 * among them is read again; where the second says otherwise, the middle of three counts, point by point.
 */
async function readWanted(ready: Ready, trace: Trace, span: TraceSpan, manner: Manner): Promise<Levels> {
  const pick = (levels: Levels): Levels => span.wanted.map(({ point }) => levels[point] ?? null);
  const averaged = async (): Promise<Levels> => {
    const traces = [pick(await readSpan(ready, trace, span))];
    while (traces.length < manner.repeats) traces.push(pick(await readSpan(ready, trace, span)));
    return span.wanted.map((_, i) => meanLevel(traces.map((levels) => levels[i] ?? null)));
  };
  const first = await averaged();
  // The first of a span has no neighbour that was read with it; that it has a level is all that can be asked of it.
  const doubtful = first.some((levelDbmv, i) => isDoubtful(levelDbmv, first[Math.max(0, i - 1)]));
  if (!manner.recheck || !trace.askAgain || !doubtful) return first;
  const second = await averaged();
  if (first.every((levelDbmv, i) => isSameReading(levelDbmv, second[i] ?? null))) return first;
  const third = await averaged();
  return first.map((levelDbmv, i) => middleReading([levelDbmv, second[i] ?? null, third[i] ?? null]));
}

async function readSpan(ready: Ready, trace: Trace, span: TraceSpan): Promise<readonly (number | null)[]> {
  const { talk, profile } = ready;
  const during = `from ${span.startHz / 1e6} to ${span.stopHz / 1e6} MHz`;
  const read = async () => {
    try {
      return await readOnce(ready, trace, span, during);
    } catch (fault) {
      throw await explained(talk, profile, during, fault);
    }
  };
  try {
    return await read();
  } catch (fault) {
    if (!(fault instanceof MeterFault) || fault.code !== 'meter-error') throw fault;
    // It may be left from something that was pressed on the meter, or the meter started anew and lost the span; with an
    // empty queue it is about this span.
    await drainErrors(talk, profile);
    return await read();
  }
}

async function readOnce(ready: Ready, trace: Trace, span: TraceSpan, during: string) {
  const { talk, profile } = ready;
  const fields = await setSpan(ready, trace, span);
  const error = errorIn(fields);
  if (error !== null) throw meterError(talk, profile, during, error);
  const unit = unitIn(ready.unit, fields);
  const levels = await readPoints({ ...ready, unit }, trace, span);
  const [oldest] = await drainErrors(talk, profile);
  if (oldest !== undefined) throw meterError(talk, profile, during, oldest);
  if (!trace.unitAgain || !('confirm' in profile.unit)) return levels;
  // Another one than before the trace: nobody knows in which the trace is.
  const { unit: named = '' } = await askMeter(talk, profile.unit.confirm);
  if (named.toUpperCase() === unit) return levels;
  const help = `${during}: the meter's unit changed from ${unit} to ${named} while it was read; leave its keys alone and read again`;
  throw new MeterFault('meter-error', talk.where, help);
}

/** The meter's own word on where the trace begins, where it ends and how many points it has must be what was wished. */
const setSpan = ({ talk, profile }: Ready, trace: Trace, span: TraceSpan): Promise<Fields> =>
  askMeter(talk, { ...trace.set, ask: aboutSpan(trace.set.ask, span) }, (fields) => {
    const off = (said: string | undefined, wished: number) => Math.abs(Number(said) - wished);
    const within = profile.limits.tuneWithinMhz * 1e6 + 0.5;
    return (
      errorIn(fields) !== null ||
      (Number(fields.points) === span.points &&
        off(fields.startHz, span.startHz) <= within &&
        off(fields.stopHz, span.stopHz) <= within)
    );
  });

async function readPoints(ready: Ready, trace: Trace, span: TraceSpan): Promise<readonly (number | null)[]> {
  const first = await askPoints(ready, trace, span);
  if (first.levels !== null) return first.levels;
  await rest(ready.talk, 120);
  const second = await askPoints(ready, trace, span);
  if (second.levels !== null) return second.levels;
  throw notUnderstood(ready.talk.where, trace.read.ask, second.why);
}

/** The levels of every point, or why what came is no such trace. */
async function askPoints({ talk, profile, unit }: Ready, { read }: Trace, span: TraceSpan) {
  const { ask, format, timeoutMs } = read;
  const came = await patiently(talk, timeoutMs, async (signal) => {
    const line = aboutSpan(ask, span);
    if (format.kind === 'ascii')
      return readTraceList(await talk.link.ask(line, signal), format.separator, span.points);
    const answer = await talk.link.askBlock(line, span.points * BYTES_A_POINT[format.number], signal);
    return answer.kind === 'line'
      ? refuse('not-a-trace', 'trace', answer.line)
      : readTraceBlock(answer.data, format.number, format.byteOrder, span.points);
  });
  if (!came.ok) return { levels: null, why: `${came.where}: ${came.help}` };
  const levels = came.value.map((amount) => levelOf(profile, unit, amount));
  const odd = levels.find((levelDbmv) => !isPossible(profile, levelDbmv));
  return odd === undefined
    ? { levels, why: '' }
    : { levels: null, why: `${odd} dBmV is no level that this meter reads` };
}
