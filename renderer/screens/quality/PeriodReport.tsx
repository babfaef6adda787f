import { Glyph } from '../../parts/Glyph.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { dayBegins } from '../../state/quality-commands.ts';
import { paperHere } from '../report/paper-choice.ts';
import { ReportProgress } from '../report/ReportProgress.tsx';
import { useReport } from '../report/use-report.ts';

export type PeriodReportProps = Readonly<{ fromDay: string; toDay: string }>;

/** The visits that the screen shows, on paper or as a page; both days included. */
export function PeriodReport({ fromDay, toDay }: PeriodReportProps) {
  const { work, make, stop } = useReport();
  const from = dayBegins(fromDay, 0);
  const to = dayBegins(toDay, 1);
  if (from === null || to === null) return null;
  const busy = work.at === 'making';
  const order = (form: 'pdf' | 'html') => () =>
    make({
      of: { kind: 'period', from, to },
      form,
      paper: paperHere(localStorage, navigator.language),
    });
  return (
    <div className="period__report">
      <PressButton isDisabled={busy} onPress={order('pdf')}>
        <Glyph name="save" /> Report of these visits
      </PressButton>
      <PressButton isDisabled={busy} onPress={order('html')}>
        The same as a page of HTML
      </PressButton>
      <ReportProgress work={work} onStop={stop} />
    </div>
  );
}
