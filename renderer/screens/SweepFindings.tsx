import { useMemo } from 'react';
import { inspectSweep } from '../../core/inspect/all.ts';
import type { Finding } from '../../core/inspect/finding.ts';
import type { LevelRow } from '../../core/line/level-row.ts';
import { findingWords, howFinding } from '../how/inspect.ts';
import { HowText } from '../parts/HowText.tsx';
import { selectLengthUnit } from '../state/select.ts';
import { useSelected } from '../state/use-workbench.ts';

export type SweepFindingsProps = Readonly<{ rows: readonly LevelRow[] }>;

const NONE: readonly Finding[] = [];
/** More than these are signs of one cause; the command line lists them all. */
const MOST_SHOWN = 3;

/** What a shape looks like, where the shape is what is wrong: it says where to look for the cause. */
export function SweepFindings({ rows }: SweepFindingsProps) {
  const unit = useSelected(selectLengthUnit);
  const findings = useMemo(() => {
    const inspected = inspectSweep(rows);
    return inspected.ok ? inspected.value.findings : NONE;
  }, [rows]);
  if (findings.length === 0) return null;
  return (
    <ul className="shape" aria-label="What the sweep shows">
      {findings.slice(0, MOST_SHOWN).map((finding) => {
        const text = `${findingWords(finding, unit)}.`;
        return (
          <li key={text}>
            <HowText how={howFinding(finding, unit)} text={text} />
          </li>
        );
      })}
      {findings.length > MOST_SHOWN && <li>{`And ${findings.length - MOST_SHOWN} more.`}</li>}
    </ul>
  );
}
