import type { ChosenSignals } from '../../core/line/choose-rows.ts';
import type { SweepFit } from '../../core/line/fit-sweep.ts';
import { signedDecimal } from '../format.ts';

/** Which kind of signal was compared with which line, in one line of text. */
export function signalWords({ groups, reference }: ChosenSignals): string {
  const byLineUp = reference === 'line-up';
  const each = groups
    .filter(({ name }) => name !== reference)
    .map(({ name, kind, offsetDb }) =>
      kind === null && !byLineUp
        ? `${name} as it stands`
        : `${name.replace(/ at -?[\d.]+ dB$/, '')} ${signedDecimal(offsetDb)}`,
    );
  return byLineUp
    ? `Each kind against its own line, as the line-up says: ${each.join(', ')} dB from the design line.`
    : `Each kind against its own line, by the usual steps: ${each.join(', ')} dB from ${reference}.`;
}

/**
 * What a reader of the line has to know beside its figures: rows far off that stay in it, and, where no design says against
 * which line each kind is held, by how much the kinds were moved onto one.
 */
export const fitNotes = ({ findings }: SweepFit, isJudged: boolean): readonly string[] =>
  findings
    .filter(
      ({ kind }) =>
        kind === 'rows-far-off' || (!isJudged && (kind === 'signal-step' || kind === 'signals-moved')),
    )
    .map(({ text }) => text);
