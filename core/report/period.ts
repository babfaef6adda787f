import type { PeriodBatch, PeriodStanding, PeriodTotals, PeriodVisit } from '../drift/period-batch.ts';
import { type ClockPlace, dayWords, localTime } from '../words/local-time.ts';
import { bareMhz, counted, plugIn, signedDecimal } from '../words/numbers.ts';
import type { Block, Cell, Picture, ReportDocument, Shape } from './document.ts';
import { PICTURE_WIDTH_PT } from './level-picture.ts';
import type { ChainHead } from './material.ts';
import { markOf, verdictWord } from './standing-table.ts';

/** What holds for a report of a period. */
export type PeriodFrame = Readonly<{
  place: ClockPlace;
  program: string;
  madeAt: string;
  head: ChainHead | null;
  /** SHA-256 of the period's visits as ordered JSON. */
  dataSha256: string;
}>;

const NAME_PT = 118;
const BAR_PT = 12;
const STEP_PT = 20;

/** So many visits each, as bars of one ink with their name before and their number behind them. */
function countsPicture(totals: PeriodTotals): Picture {
  const rows = [
    ['left good', totals.leftPass],
    ['left undecided', totals.leftUndecided],
    ['left not good', totals.leftFail],
    ['not left, or not judged', totals.notLeft],
  ] as const;
  const most = Math.max(1, ...rows.map(([, count]) => count));
  const widest = PICTURE_WIDTH_PT - NAME_PT - 40;
  const shapes = rows.flatMap(([name, count], i): Shape[] => {
    const yPt = 4 + i * STEP_PT;
    const wide = Math.max(count > 0 ? 1 : 0, (widest * count) / most);
    const words = { shape: 'words', yPt: yPt + 9.5, sizePt: 9, ink: 'ink' } as const;
    return [
      { ...words, text: name, xPt: 0, bold: false, align: 'start' },
      { shape: 'boxes', boxes: [[NAME_PT, yPt, wide, BAR_PT]], ink: 'ink' },
      { ...words, text: String(count), xPt: NAME_PT + wide + 6, bold: true, align: 'start' },
    ];
  });
  return { widthPt: PICTURE_WIDTH_PT, heightPt: rows.length * STEP_PT, shapes };
}

function standingCell(standing: PeriodStanding | null): Cell {
  if (standing === null) return { text: '' };
  const { verdict, worstDb, worstMhz } = standing;
  if (verdict === null || worstDb === null || worstMhz === null) return { text: 'not judged', soft: true };
  const part = { verdict, deviationDb: worstDb };
  return {
    text: `${signedDecimal(worstDb)} at ${bareMhz(worstMhz)}, ${verdict === 'fail' ? 'not good' : verdictWord(part)}`,
    mark: markOf(part),
  };
}

const dayOf = (ms: number, place: ClockPlace): string => localTime(new Date(ms).toISOString(), place).day;

const changesOf = ({ changes }: PeriodVisit): string =>
  changes.map(({ position, fromDb, toDb }) => `${position} ${plugIn(fromDb)} to ${plugIn(toDb)}`).join(', ');

/** What the period came to, in one sentence. */
function periodSentence({
  visits,
  stations,
  leftPass,
  leftFail,
  leftUndecided,
  putRight,
}: PeriodTotals): string {
  if (visits === 0) return 'No visit began in this period';
  const where = `${counted(visits, 'visit', 'visits')} to ${counted(stations, 'station', 'stations')}`;
  const left = `${leftPass} left good${leftUndecided === 0 ? '' : `, ${leftUndecided} undecided`}${leftFail === 0 ? '' : `, ${leftFail} not good`}`;
  return `${where}: ${left}${putRight === 0 ? '' : `, ${putRight} of them put right`}`;
}

/**
 * A period as a document: what its visits came to, and each with how its station was found and left.
 * @param batch  as `periodBatch` made it
 * @param frame  whose clock is printed, and what ties the paper to the records
 * @source   see `periodBatch`; verdicts: `standingAgainstDesign`
 */
export function periodReport(batch: PeriodBatch, frame: PeriodFrame): ReportDocument {
  const { totals, visits } = batch;
  const { place, head } = frame;
  const from = dayWords(dayOf(batch.fromMs, place));
  // The end is not included: the last day is the one before it.
  const to = dayWords(dayOf(Math.max(batch.fromMs, batch.toMs - 1), place));
  const blocks: Block[] = [
    { block: 'finding', lead: 'All stations', text: periodSentence(totals), mark: null, word: '' },
    ...(totals.visits === 0
      ? [
          {
            block: 'paragraph',
            text: 'Choose another period: it is told by the day on which a visit began.',
          } as const,
        ]
      : [
          {
            block: 'figure',
            picture: countsPicture(totals),
            caption: `How the stations were left, by visit. ${counted(totals.sweeps, 'sweep', 'sweeps')} were read.`,
            words: `Left good: ${totals.leftPass}. Undecided: ${totals.leftUndecided}. Not good: ${totals.leftFail}. Not left, or not judged: ${totals.notLeft}.`,
          } as const,
        ]),
    { block: 'heading', level: 2, text: 'Visits' },
    {
      block: 'table',
      caption: 'Worst channel from design, dB at MHz',
      columns: [
        { title: 'Day', align: 'start', share: 2.2 },
        { title: 'Station', align: 'start', share: 2.4 },
        { title: 'By', align: 'start', share: 1.7 },
        { title: 'Found', align: 'start', share: 2.6 },
        { title: 'Left', align: 'start', share: 2.6 },
        { title: 'Parts changed, dB', align: 'start', share: 2.6 },
      ],
      rows: visits.map((visit) => [
        { text: dayWords(dayOf(visit.startedMs, place)) },
        { text: visit.stationName },
        { text: visit.operator === '' ? 'not written down' : visit.operator },
        standingCell(visit.before),
        standingCell(visit.after),
        { text: visit.changes.length === 0 ? 'none' : changesOf(visit), soft: visit.changes.length === 0 },
      ]),
      empty: 'none.',
    },
    {
      block: 'paragraph',
      soft: true,
      text: `A visit counts by how its last sweep as left stands against the design that it was read under. SHA-256 of this list as ordered JSON: ${frame.dataSha256}.`,
    },
    {
      block: 'paragraph',
      soft: true,
      text:
        head === null
          ? 'This archive keeps no record yet.'
          : `Head of the archive\u2019s chain of records when this was printed: record ${head.seq} of device ${head.device}, ${head.hash}. The records are tamper-evident, not tamper-proof.`,
    },
    { block: 'signatures', names: ['Quality assurance', 'Checked by'] },
  ];
  return {
    kind: 'pages',
    title: `Quality assurance, ${from} to ${to}`.replaceAll('\u00A0', ' '),
    subject: 'Tiltwright report of a period',
    language: 'en',
    madeAt: frame.madeAt,
    masthead: { over: 'Quality assurance', title: 'Visits of a period', aside: [from, `to ${to}`] },
    blocks,
    foot: [
      `${from} to ${to}, ${place.timeZone}, printed with Tiltwright ${frame.program}`,
      `data SHA-256 ${frame.dataSha256.slice(0, 24)}\u2026${head === null ? '' : `  \u00B7  chain head ${head.seq}, ${head.hash.slice(0, 24)}\u2026`}`,
    ],
  };
}
