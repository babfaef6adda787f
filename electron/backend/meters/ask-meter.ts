import { type Fields, matchAnswer } from '../../../core/meters/match-answer.ts';
import type { LineLink } from './line-link.ts';
import { MeterFault } from './meter-shop.ts';
import { OutOfPatience, pause, withPatience } from './patience.ts';
import type { Question } from './profile.ts';

export type { Fields };

/** A conversation with one meter: its link, and the name it has in messages. */
export type Talk = Readonly<{
  link: LineLink;
  where: string;
  signal: AbortSignal;
  /** How time passes; what was recorded is read again without waiting. Unless told, as it does. */
  rest?: (restMs: number, signal: AbortSignal) => Promise<void>;
  /** In place of every question's own patience: what was recorded comes at once or never. */
  patienceMs?: number;
}>;

/** Waits, unless what was said is long past. */
export const rest = (talk: Talk, restMs: number): Promise<void> =>
  restMs === 0 ? Promise.resolve() : (talk.rest ?? pause)(restMs, talk.signal);

/** Long enough for the rest of a torn answer to come and be dropped, before the question is put again. */
const AFTER_NONSENSE_MS = 120;
const TELL_WITHIN_MS = 1500;
const SHOWN_CHARACTERS = 80;

/**
 * The named parts of the answer. An answer that the grammar refuses, or that `makesSense` does, is asked for once
 * more; then it is a `MeterFault` that shows what came. Silence is one at once. Rejects with the signal's reason when
 * that aborts.
 */
export async function askMeter(
  talk: Talk,
  question: Question,
  makesSense: (fields: Fields) => boolean = () => true,
): Promise<Fields> {
  const first = await askOnce(talk, question);
  if (first.fields !== null && makesSense(first.fields)) return first.fields;
  await rest(talk, AFTER_NONSENSE_MS);
  const second = await askOnce(talk, question);
  if (second.fields !== null && makesSense(second.fields)) return second.fields;
  throw notUnderstood(talk.where, question.ask, second.text);
}

/** The answer's text and its parts, null when it does not read as an answer to this question. */
async function askOnce(talk: Talk, question: Question) {
  const text = await patiently(talk, question.timeoutMs, (signal) => talk.link.ask(question.ask, signal));
  return { text, fields: matchAnswer(question.answers, text) };
}

/** Says a line that has no answer. */
export const tellMeter = (talk: Talk, line: string): Promise<void> =>
  patiently(talk, TELL_WITHIN_MS, (signal) => talk.link.tell(line, signal));

/** Waits for an answer as long as it may take; silence is a `MeterFault`. */
export async function patiently<T>(
  talk: Talk,
  patienceMs: number,
  task: (signal: AbortSignal) => Promise<T>,
): Promise<T> {
  try {
    return await withPatience(talk.patienceMs ?? patienceMs, talk.signal, task);
  } catch (fault) {
    if (fault instanceof OutOfPatience) throw silent(talk.where, fault.afterMs);
    throw fault;
  }
}

const silent = (where: string, afterMs: number) =>
  new MeterFault(
    'silent',
    where,
    `the meter does not answer (waited ${afterMs / 1000} s); check that it is switched on, that this is its port, and the speed of the port`,
  );

/** What came is no answer to what was asked. */
export const notUnderstood = (where: string, asked: string, text: string) =>
  new MeterFault(
    'not-understood',
    where,
    `the meter's answer to "${asked}" is not understood: ${shown(text)}; check the profile and the speed of the port`,
  );

const shown = (text: string) =>
  JSON.stringify(text.length > SHOWN_CHARACTERS ? `${text.slice(0, SHOWN_CHARACTERS)}…` : text);
