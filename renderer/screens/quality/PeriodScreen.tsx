import { useEffect } from 'react';
import { Input, Label, TextField } from 'react-aria-components';
import type { Output } from '../../../core/bridge/contract.ts';
import { clock, counted, plugIn, signedDecimal } from '../../format.ts';
import { howVisitWorst } from '../../how/records.ts';
import { HowText } from '../../parts/HowText.tsx';
import { Mark } from '../../parts/Mark.tsx';
import { PressButton } from '../../parts/PressButton.tsx';
import { dayWords } from '../../state/quality-words.ts';
import { selectPeriod } from '../../state/select.ts';
import { useActions, useBench, useSelected, useWorkbench } from '../../state/use-workbench.ts';
import { PeriodReport } from './PeriodReport.tsx';
import { RecordsBar } from './RecordsBar.tsx';

type Batch = Output<'quality.period'>;
type Visit = Batch['visits'][number];

const two = (value: number) => String(value).padStart(2, '0');
/** "2026-11-25", so many days ago, as a date field holds it. */
const dayBack = (now: string, days: number): string => {
  const at = new Date(now);
  const then = new Date(at.getFullYear(), at.getMonth(), at.getDate() - days);
  return `${then.getFullYear()}-${two(then.getMonth() + 1)}-${two(then.getDate())}`;
};

const spans = [
  { words: 'Last 7 days', days: 6 },
  { words: 'Last 30 days', days: 29 },
  { words: 'Last 365 days', days: 364 },
] as const;

/** What a period's visits came to: each with how the station was found and left. */
export function PeriodScreen() {
  const { fromDay, toDay, found } = useSelected(selectPeriod);
  const { recordsWent } = useActions();
  const { readPeriod } = useWorkbench();
  const { now } = useBench();
  useEffect(() => {
    // The first look is at the week that has just gone by.
    if (found.at === 'none') void readPeriod(dayBack(now(), 6), dayBack(now(), 0));
  }, [found.at, now, readPeriod]);
  return (
    <div className="records">
      <RecordsBar name="Visits of a period" backTo="all records" onBack={() => recordsWent('table')} />
      <main className="records__main period">
        <div className="period__ask">
          <DayField label="From" value={fromDay} onChange={(day) => readPeriod(day, toDay)} />
          <DayField label="to" value={toDay} onChange={(day) => readPeriod(fromDay, day)} />
          {spans.map(({ words, days }) => (
            <PressButton key={words} onPress={() => readPeriod(dayBack(now(), days), dayBack(now(), 0))}>
              {words}
            </PressButton>
          ))}
        </div>
        {found.at === 'failed' && <p role="status">{found.help}</p>}
        {found.at === 'found' && <Found batch={found.batch} fromDay={fromDay} toDay={toDay} />}
      </main>
    </div>
  );
}

type DayFieldProps = Readonly<{ label: string; value: string; onChange: (day: string) => void }>;

const DayField = ({ label, value, onChange }: DayFieldProps) => (
  <TextField className="field field--line period__day" type="date" value={value} onChange={onChange}>
    <Label>{label}</Label>
    <Input />
  </TextField>
);

/** "12 visits: 9 stations left as designed, 4 of them put right, 2 left out." */
function totalWords({ totals }: Batch): string {
  const left = [
    ...(totals.leftPass > 0 ? [`${totals.leftPass} left as designed`] : []),
    ...(totals.putRight > 0 ? [`${totals.putRight} of them put right`] : []),
    ...(totals.leftFail > 0 ? [`${totals.leftFail} left out`] : []),
    ...(totals.leftUndecided > 0 ? [`${totals.leftUndecided} undecided`] : []),
    ...(totals.notLeft > 0 ? [`${totals.notLeft} without a sweep as left`] : []),
  ];
  return `${counted(totals.visits, 'visit', 'visits')} at ${counted(totals.stations, 'station', 'stations')}: ${left.join(', ')}.`;
}

function Found({ batch, ...days }: Readonly<{ batch: Batch; fromDay: string; toDay: string }>) {
  if (batch.visits.length === 0)
    return (
      <div className="records__empty">
        <h1>Nobody was out in these days.</h1>
        <p>Choose a longer period above.</p>
      </div>
    );
  return (
    <>
      <div className="period__found">
        <h1>{totalWords(batch)}</h1>
        <PeriodReport key={`${days.fromDay} ${days.toDay}`} {...days} />
      </div>
      <section className="period__visits" aria-label="Visits">
        <table className="numbers period__table">
          <thead>
            <tr>
              <th scope="col">Begun</th>
              <th scope="col">Station</th>
              <th scope="col">By</th>
              <th scope="col">As found, dB</th>
              <th scope="col">As left, dB</th>
              <th scope="col">Changed</th>
            </tr>
          </thead>
          <tbody>
            {batch.visits.map((visit) => (
              <VisitRow key={visit.visitId} visit={visit} />
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

function VisitRow({ visit }: Readonly<{ visit: Visit }>) {
  const { openHistory } = useWorkbench();
  const begun = new Date(visit.startedMs).toISOString();
  return (
    <tr>
      <td>
        {dayWords(visit.startedMs)} <small>{clock(begun)}</small>
      </td>
      <th scope="row">
        <PressButton rank="quiet" onPress={() => openHistory(visit.stationId, null)}>
          {visit.stationName}
        </PressButton>
      </th>
      <td>{visit.operator === '' ? '\u2013' : visit.operator}</td>
      <td>
        <Stood of={`${visit.stationName}, as found`} standing={visit.before} none="not read" />
      </td>
      <td>
        <Stood
          of={`${visit.stationName}, as left`}
          standing={visit.after}
          none={visit.endedMs === null ? 'visit open' : 'not read'}
        />
      </td>
      <td className="period__changes">
        {visit.changes.length === 0
          ? '\u2013'
          : visit.changes
              .map(({ position, fromDb, toDb }) => `${position} ${plugIn(fromDb)} to ${plugIn(toDb)}`)
              .join(', ')}
      </td>
    </tr>
  );
}

const verdictWords = { pass: 'in order', fail: 'out', undecided: 'undecided' } as const;

/** The worst channel with its verdict: a mark, a number and a word. */
function Stood({ of, standing, none }: Readonly<{ of: string; standing: Visit['before']; none: string }>) {
  if (standing === null) return <small>{none}</small>;
  const { verdict, worstDb } = standing;
  return (
    <span className={`period__stood station-row__verdict--${verdict ?? 'unknown'}`}>
      <Mark verdict={verdict ?? 'unknown'} pointing={(worstDb ?? 0) > 0 ? 'up' : 'down'} />
      <strong>
        {worstDb === null ? (
          '\u2013'
        ) : (
          <HowText how={howVisitWorst(of, standing, worstDb)} text={signedDecimal(worstDb)} />
        )}
      </strong>
      <small>{verdict === null ? 'not judged' : verdictWords[verdict]}</small>
    </span>
  );
}
