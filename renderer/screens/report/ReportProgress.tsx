import { PressButton } from '../../parts/PressButton.tsx';
import type { ReportWork } from './use-report.ts';

export type ReportProgressProps = Readonly<{ work: ReportWork; onStop: () => void }>;

/** How far the report is, and the way to stop it; afterwards what it is called. */
export function ReportProgress({ work, onStop }: ReportProgressProps) {
  return (
    <div className="report__work" role="status">
      {work.at === 'making' && (
        <>
          <span>{work.total === null ? 'Making the report' : `Visit ${work.done} of ${work.total}`}</span>
          <progress
            aria-label="How far the report is"
            max={work.total ?? undefined}
            value={work.total === null ? undefined : work.done}
          />
          <PressButton onPress={onStop}>Stop</PressButton>
        </>
      )}
      {work.at === 'saved' && <span>{`Saved as ${work.fileName}`}</span>}
    </div>
  );
}
