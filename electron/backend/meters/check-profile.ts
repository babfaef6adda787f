import { matchAnswer } from '../../../core/meters/match-answer.ts';
import { readTraceBlock } from '../../../core/meters/trace-block.ts';
import { readTraceList } from '../../../core/meters/trace-list.ts';
import { type TraceSpan, traceSpans } from '../../../core/meters/trace-spans.ts';
import { type Fields, patiently, rest, type Talk, tellMeter } from './ask-meter.ts';
import { errorIn } from './error-queue.ts';
import { MeterFault } from './meter-shop.ts';
import { aboutFrequency, aboutSpan } from './placeholders.ts';
import type { LevelUnit, Profile, Question, Trace } from './profile.ts';
import { levelIn, makesSenseAt } from './sense.ts';

/** One question to the meter, what came back, and what was made of it. */
export type Exchange = Readonly<{
  step: 'wake' | 'identify' | 'calibration' | 'unit' | 'prepare' | 'tune' | 'level' | 'trace' | 'error queue';
  said: string;
  /** Null where nothing was to come, and where nothing came. */
  heard: string | null;
  /** What the answer's parts say; null where it is not understood or there was none. */
  understood: Fields | null;
  /** What is wrong, in words; null where all is well. */
  problem: string | null;
}>;

const SHOWN_NUMBERS = 3;

/**
 * Tries a profile on a meter, question by question, and shows each. Nothing is asked twice and nothing is mended: what
 * is wrong is to be seen. Throws `MeterFault` only when the link is lost.
 */
export async function* checkProfile(
  talk: Talk,
  profile: Profile,
  atMhz: number,
): AsyncGenerator<Exchange, void> {
  await rest(talk, profile.settleMs);
  for (const line of profile.wake) yield await tell(talk, 'wake', line);
  yield await ask(talk, 'identify', profile.identify);
  if (profile.calibration !== null) yield await ask(talk, 'calibration', profile.calibration);
  let unit: LevelUnit = 'always' in profile.unit ? profile.unit.always : 'DBMV';
  if ('confirm' in profile.unit) {
    yield await tell(talk, 'unit', profile.unit.wish);
    const confirmed = await ask(talk, 'unit', profile.unit.confirm);
    unit = unitNamed(confirmed.understood) ?? unit;
    yield confirmed.understood !== null && unitNamed(confirmed.understood) === null
      ? { ...confirmed, problem: `"${confirmed.understood.unit}" is no unit that can be converted` }
      : confirmed;
  }
  for (const line of profile.prepare) yield await tell(talk, 'prepare', line);
  if (profile.level !== null) yield* level(talk, profile, unit, atMhz);
  if (profile.trace !== null) yield* trace(talk, profile.trace, atMhz);
  if (profile.errorQueue !== null) {
    const left = await ask(talk, 'error queue', profile.errorQueue.next);
    yield left.understood !== null && errorIn(left.understood) !== null
      ? { ...left, problem: 'the meter reports an error; one of the lines above is not to its liking' }
      : left;
  }
}

function unitNamed(fields: Fields | null): LevelUnit | null {
  const named = fields?.unit?.toUpperCase();
  return named === 'DBMV' || named === 'DBUV' || named === 'DBM' || named === 'V' ? named : null;
}

async function* level(
  talk: Talk,
  profile: Profile,
  unit: LevelUnit,
  atMhz: number,
): AsyncGenerator<Exchange> {
  const hz = Math.round(atMhz * 1e6);
  if (profile.tune !== null) {
    yield await tell(talk, 'tune', aboutFrequency(profile.tune.say, hz));
    await rest(talk, profile.tune.settleMs);
  }
  if (profile.level === null) return;
  const read = await ask(talk, 'level', { ...profile.level, ask: aboutFrequency(profile.level.ask, hz) });
  if (read.understood === null) return yield read;
  const levelDbmv = levelIn(profile, unit, read.understood);
  const sense = makesSenseAt(profile, unit, hz)(read.understood);
  const error = errorIn(read.understood);
  yield {
    ...read,
    understood: { ...read.understood, dbmv: levelDbmv === null ? 'no level' : levelDbmv.toFixed(2) },
    problem:
      error !== null
        ? `the meter reports error ${error.errorCode} ${error.errorText}`
        : sense
          ? null
          : 'another frequency than the one asked for, or a level outside of the limits',
  };
}

async function* trace(talk: Talk, wished: Trace, atMhz: number): AsyncGenerator<Exchange> {
  const hz = Math.round(atMhz * 1e6);
  const [span] = traceSpans([hz], wished.leastPoints, wished.mostPoints, 100_000);
  if (span === undefined) return;
  yield await ask(talk, 'trace', { ...wished.set, ask: aboutSpan(wished.set.ask, span) });
  yield await points(talk, wished, span);
}

async function points(talk: Talk, { read }: Trace, span: TraceSpan): Promise<Exchange> {
  const said = aboutSpan(read.ask, span);
  const { format } = read;
  return await heardOr('trace', said, () =>
    patiently(talk, read.timeoutMs, async (signal) => {
      if (format.kind === 'ascii') {
        const line = await talk.link.ask(said, signal);
        return shown(said, line, readTraceList(line, format.separator, span.points));
      }
      const answer = await talk.link.askBlock(said, span.points * 8, signal);
      if (answer.kind === 'line') return unread('trace', said, answer.line);
      const heard = `a block of ${answer.data.length} bytes`;
      return shown(said, heard, readTraceBlock(answer.data, format.number, format.byteOrder, span.points));
    }),
  );
}

function shown(said: string, heard: string, read: ReturnType<typeof readTraceList>): Exchange {
  const first = read.ok ? read.value.slice(0, SHOWN_NUMBERS).join(', ') : '';
  return {
    step: 'trace',
    said,
    heard: heard.slice(0, 200),
    understood: read.ok ? { points: String(read.value.length), first } : null,
    problem: read.ok ? null : `${read.where}: ${read.help}`,
  };
}

async function tell(talk: Talk, step: Exchange['step'], said: string): Promise<Exchange> {
  await tellMeter(talk, said);
  return { step, said, heard: null, understood: null, problem: null };
}

const unread = (step: Exchange['step'], said: string, heard: string): Exchange => ({
  step,
  said,
  heard,
  understood: null,
  problem: 'the answer does not read as the profile says',
});

const ask = (talk: Talk, step: Exchange['step'], question: Question): Promise<Exchange> =>
  heardOr(step, question.ask, () =>
    patiently(talk, question.timeoutMs, async (signal) => {
      const heard = await talk.link.ask(question.ask, signal);
      const understood = matchAnswer(question.answers, heard);
      if (understood === null) return unread(step, question.ask, heard);
      return { step, said: question.ask, heard, understood, problem: null };
    }),
  );

/** Silence and an endless line are things to show; a link that is gone ends the check. */
async function heardOr(
  step: Exchange['step'],
  said: string,
  task: () => Promise<Exchange>,
): Promise<Exchange> {
  try {
    return await task();
  } catch (fault) {
    if (!(fault instanceof MeterFault) || fault.code === 'lost') throw fault;
    return { step, said, heard: null, understood: null, problem: fault.help };
  }
}
