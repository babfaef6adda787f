import { Refused } from '../../core/bridge/refused.ts';
import { type Refusal, refusalLine } from '../../core/result.ts';
import { MeterFault } from '../backend/meters/meter-shop.ts';

/** What a verb found. `json` goes out with `--json`, `text` without it; each is complete by itself. */
export type Answer = Readonly<{ json: Readonly<Record<string, unknown>>; text: string }>;

export type Outcome =
  /** Exit 0, or 1 where the verb judges and the verdict is fail. */
  | Readonly<{ kind: 'done'; answer: Answer; verdict: 'pass' | 'fail' | null }>
  /** Exit 2: the person's input, one line. */
  | Readonly<{ kind: 'refused'; refusal: Refusal }>
  /** Exit 3: the meter or the archive. What was read before it failed is still answered. */
  | Readonly<{ kind: 'failed'; where: string; help: string; answer: Answer | null }>;

export const answered = (
  json: Answer['json'],
  text: string,
  verdict: 'pass' | 'fail' | null = null,
): Outcome => ({
  kind: 'done',
  answer: { json, text },
  verdict,
});

export const refused = (refusal: Refusal): Outcome => ({ kind: 'refused', refusal });

/** A thrown fault as an outcome: a person's mistake, a meter that failed, or anything else that went wrong. */
export function outcomeOfFault(fault: unknown): Outcome {
  if (fault instanceof Refused) return { kind: 'refused', refusal: fault.refusal };
  if (fault instanceof MeterFault)
    return { kind: 'failed', where: fault.where, help: fault.help, answer: null };
  const help = fault instanceof Error ? fault.message : String(fault);
  return { kind: 'failed', where: 'tiltwright', help, answer: null };
}

/** One line and no control characters, whatever a file name or a meter put into it. */
export const oneLine = (text: string): string =>
  text
    .replace(/\s+/g, ' ')
    .replace(/\p{Cc}/gu, '?')
    .trim();

export type Output = Readonly<{ stdout: string; stderr: string; exitCode: 0 | 1 | 2 | 3 }>;

const written = (answer: Answer, json: boolean): string =>
  json ? `${JSON.stringify(answer.json)}\n` : `${answer.text.replace(/\n*$/, '')}\n`;

/** What goes to standard output and standard error, and the exit code (contract, section 3). */
export function outputOf(outcome: Outcome, json: boolean): Output {
  switch (outcome.kind) {
    case 'done':
      return {
        stdout: written(outcome.answer, json),
        stderr: '',
        exitCode: outcome.verdict === 'fail' ? 1 : 0,
      };
    case 'refused':
      return { stdout: '', stderr: `${oneLine(refusalLine(outcome.refusal))}\n`, exitCode: 2 };
    case 'failed':
      return {
        stdout: outcome.answer === null ? '' : written(outcome.answer, json),
        stderr: `${oneLine(`${outcome.where}: ${outcome.help}`)}\n`,
        exitCode: 3,
      };
  }
}
