import { useEffect, useState } from 'react';
import { RANGE_UNCERTAINTY_DB } from '../../core/gain-control/range.ts';
import { type RangeRun, rangeRunVerdict } from '../../core/gain-control/range-run.ts';
import { oneDecimal, sizeDb } from '../format.ts';
import { howRange } from '../how/gain-control.ts';
import { HowText } from '../parts/HowText.tsx';
import { Mark } from '../parts/Mark.tsx';
import { rangeVerdictWords } from '../state/range-words.ts';
import type { StepProof } from '../state/step-proof.ts';

/** Only what is shown: it changes a few times in a test, not with every reading. */
const sameShown = (a: RangeRun | null, b: RangeRun | null): boolean =>
  a?.phase === b?.phase &&
  a?.setDbmv === b?.setDbmv &&
  a?.highDbmv === b?.highDbmv &&
  a?.lowDbmv === b?.lowDbmv;

/** The range as far as it is measured, and its verdict as soon as both ends are found. */
export function RangeSeen({ proof }: Readonly<{ proof: StepProof }>) {
  const [run, setRun] = useState<RangeRun | null>(null);
  useEffect(
    () =>
      proof.onTick(() => {
        const { range } = proof.read();
        // A reading that stays away takes nothing back of what was measured.
        if (range !== null) setRun((before) => (sameShown(before, range) ? before : range));
      }),
    [proof],
  );
  if (run === null || run.setDbmv === null || run.highDbmv === null) return null;
  const verdict = rangeRunVerdict(run);
  if (verdict === null)
    return (
      <p className="said">
        <Mark verdict="unknown" />
        <span>{`Range so far: up ${sizeDb(run.highDbmv - run.setDbmv)}.`}</span>
      </p>
    );
  const figures = `up ${oneDecimal(verdict.upDb)}, down ${oneDecimal(verdict.downDb)}, in all ${sizeDb(verdict.totalDb)}`;
  const found = `Range ${rangeVerdictWords[verdict.verdict]}${run.phase === 'down' ? ' so far' : ''}: ${figures}.`;
  const why = ` Outside by no more than the meter’s ±${sizeDb(RANGE_UNCERTAINTY_DB)}.`;
  return (
    <p className="said" role="status">
      <Mark verdict={verdict.verdict} pointing="up" />
      <span>
        {/* One text, so that whoever hears it hears the reason before the offer to say more. */}
        <HowText
          how={howRange(verdict)}
          text={verdict.verdict === 'undecided' ? found + why : found}
          figure={figures}
        />
      </span>
    </p>
  );
}
