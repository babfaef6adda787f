import { useState } from 'react';
import type { Paper } from '../../../core/report/document.ts';
import { Panel } from '../../parts/Panel.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { Segments } from '../../parts/Segments.tsx';
import { DialogNotice } from '../DialogNotice.tsx';
import { keepPaper, paperHere } from './paper-choice.ts';
import { ReportProgress } from './ReportProgress.tsx';
import { useReport } from './use-report.ts';

export type ReportPanelProps = Readonly<{
  stationId: string;
  stationName: string;
  visitId: string;
  /** The day of the visit, in words. */
  day: string;
  onClose: () => void;
}>;

const papers = [
  { key: 'a4', text: 'A4' },
  { key: 'letter', text: 'Letter' },
] as const;
/** How many labels fit a sheet, and one. */
const counts = [
  { key: '1', text: '1' },
  { key: '6', text: '6' },
  { key: '18', text: '18' },
] as const;

/** Every form that a visit can take on paper, each with what it is good for. */
export function ReportPanel({ stationId, stationName, visitId, day, onClose }: ReportPanelProps) {
  const { work, make, stop } = useReport();
  const [paper, setPaper] = useState<Paper>(() => paperHere(localStorage, navigator.language));
  const [count, setCount] = useState<(typeof counts)[number]['key']>('1');
  const busy = work.at === 'making';
  const visit = { kind: 'visit', visitId } as const;
  const rows = [
    {
      key: 'pdf',
      text: 'PDF',
      about: 'To print, to sign or to send.',
      press: () => make({ of: visit, form: 'pdf', paper }),
    },
    {
      key: 'html',
      text: 'Page of HTML',
      about: 'The same for any browser. Needs no network and no program of ours.',
      press: () => make({ of: visit, form: 'html', paper }),
    },
    {
      key: 'history',
      text: 'History',
      about: `Every visit to ${stationName}, as PDF.`,
      press: () => make({ of: { kind: 'history', stationId }, form: 'pdf', paper }),
    },
  ];
  return (
    <Panel title={`Report, ${day}`} isOpen onClose={onClose} width="wide">
      <div className="report">
        <div className="report__paper">
          <span>Paper</span>
          <Segments
            label="Paper"
            options={papers}
            chosen={paper}
            onChoose={(next) => {
              setPaper(next);
              keepPaper(localStorage, next);
            }}
          />
        </div>
        {rows.map(({ key, text, about, press }, i) => (
          <div className="report__row" key={key}>
            <PressButton
              rank={i === 0 ? 'do' : 'plain'}
              size="visit"
              isDisabled={busy}
              onPress={press}
              autoFocus={i === 0}
            >
              {text}
            </PressButton>
            <p>{about}</p>
          </div>
        ))}
        <div className="report__row">
          <PressButton
            size="visit"
            isDisabled={busy}
            onPress={() => make({ of: { kind: 'label', visitId, count: Number(count) }, form: 'pdf', paper })}
          >
            Labels
          </PressButton>
          <p>
            {
              'For the inside of the lid, 62\u00A0\u00D7\u00A040\u00A0mm: what is fitted, the levels, and a code that names this record.'
            }
          </p>
        </div>
        <div className="report__paper">
          <span>How many labels</span>
          <Segments label="How many labels" options={counts} chosen={count} onChoose={setCount} />
        </div>
        <DialogNotice />
        <ReportProgress work={work} onStop={stop} />
      </div>
    </Panel>
  );
}
