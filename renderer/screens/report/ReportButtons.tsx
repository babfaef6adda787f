import { useState } from 'react';
import { Button } from 'react-aria-components';
import { day } from '../../format.ts';
import { Glyph } from '../../parts/Glyph.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { useBench } from '../../state/use-workbench.ts';
import { paperHere } from './paper-choice.ts';
import { ReportPanel } from './ReportPanel.tsx';
import { useReport } from './use-report.ts';

export type ReportButtonsProps = Readonly<{
  stationId: string;
  stationName: string;
  /** The visit of the sweep that is shown, and when it was read. */
  visitId: string;
  at: string;
}>;

/** One press gives the visit of the shown sweep as PDF; the second button has its other forms. */
export function ReportButtons({ stationId, stationName, visitId, at }: ReportButtonsProps) {
  const { now } = useBench();
  const { work, make } = useReport();
  const [isOpen, setIsOpen] = useState(false);
  const making = work.at === 'making';
  return (
    <div className="report-buttons">
      <PressButton
        isDisabled={making}
        onPress={() =>
          make({
            of: { kind: 'visit', visitId },
            form: 'pdf',
            paper: paperHere(localStorage, navigator.language),
          })
        }
      >
        <Glyph name="save" /> Report
      </PressButton>
      <Button
        className="icon-button icon-button--framed"
        aria-label="Other forms of the report: HTML, history, labels, paper"
        onPress={() => setIsOpen(true)}
      >
        <span aria-hidden="true">{'\u2026'}</span>
      </Button>
      <span className="unseen" role="status">
        {making ? 'Making the report' : work.at === 'saved' ? `Saved as ${work.fileName}` : ''}
      </span>
      {isOpen && (
        <ReportPanel
          stationId={stationId}
          stationName={stationName}
          visitId={visitId}
          day={day(at, now())}
          onClose={() => setIsOpen(false)}
        />
      )}
    </div>
  );
}
