import { momentWords } from '../words/local-time.ts';
import { capital, counted } from '../words/numbers.ts';
import type { Block } from './document.ts';
import type { Amended, Place, ReportFrame, ReportSweep, ReportVisit } from './material.ts';
import { purposeWord } from './port-section.ts';

/** Whose rules stand behind the figures; what has no published source says so. */
export const SOURCES: readonly string[] = [
  'Level and tilt: ordinary least squares through the channels, straight in frequency or in its square root as the design says. Flatness: peak to valley about that line.',
  'Verdict: the worst channel within the tolerance and the flatness within its limit. Common practice, no published source.',
  'Uncertainty: JCGM 100:2008 (GUM), 4.3.7; 5.1.2 and 6.2.1 from memory. Verdicts by chance, with guard bands: JCGM 106:2012, 8.3.2 and 8.3.3 from memory; 95 in 100 is this program\u2019s choice.',
  'Loss of plug-ins: pad as labelled; equalizer and cable simulator by the square root of frequency, or by measured curves where the station file has them.',
  'Ripple to distance: speed of light times velocity factor 0.87, over twice the period. A velocity factor other than the cable\u2019s own moves the distance.',
  'Reserve, ambient compensation and range of a gain control: common practice, no published source.',
];

function stateWords(sweep: ReportSweep, place: Place): string {
  const { state, endReason, voided, corrects, correctedBy } = sweep;
  const by = (amended: Amended) => `${amended.reason} (${amended.by}, ${momentWords(amended.at, place)})`;
  return [
    state === 'partial' ? `cut short${endReason === null ? '' : `: ${endReason}`}` : state,
    ...(voided === null ? [] : [`void: ${by(voided)}`]),
    ...(corrects === null ? [] : [`corrects ${corrects.sweepId.slice(0, 8)}: ${by(corrects)}`]),
    ...(correctedBy === null ? [] : [`counts no more, corrected by ${correctedBy.slice(0, 8)}`]),
  ].join('; ');
}

/**
 * The sweeps of a visit as records: what each is, voids and corrections, and its hash.
 * @param visits  whose sweeps are listed
 * @source   SHA-256: FIPS 180-4; a hash chain shows tampering and prevents none: this program's own words
 */
export function recordSection(visits: readonly ReportVisit[], frame: ReportFrame): readonly Block[] {
  const rows = visits.flatMap((visit) =>
    visit.sweeps.map((sweep) => [
      { text: momentWords(sweep.startedAt, visit.place) },
      { text: `${capital(purposeWord(sweep.purpose))}, ${sweep.portName}` },
      {
        text: `${counted(sweep.rows.length, 'reading', 'readings')}, ${stateWords(sweep, visit.place)}${sweep.source === 'file' ? `, from ${sweep.sourceName}` : ''}`,
        bold: sweep.voided !== null || sweep.correctedBy !== null,
      },
    ]),
  );
  const { head } = frame;
  return [
    { block: 'heading', level: 2, text: 'Records' },
    {
      block: 'table',
      caption: 'Every sweep, those that count no more too',
      columns: [
        { title: 'Begun', align: 'start', share: 2.6 },
        { title: 'What', align: 'start', share: 2.1 },
        { title: 'State', align: 'start', share: 2.9 },
      ],
      rows,
      empty: 'Nothing was read.',
    },
    ...(rows.length === 0
      ? []
      : [
          {
            block: 'table',
            set: 'fine',
            caption:
              'The same in the same order: id, and SHA-256 of the sweep\u2019s CSV file as the workbench exports it',
            columns: [
              { title: 'Id', align: 'start', share: 3.4 },
              { title: 'SHA-256', align: 'start', share: 6 },
            ],
            rows: visits.flatMap(({ sweeps }) =>
              sweeps.map(({ sweepId, sha256 }) => [{ text: sweepId }, { text: sha256 }]),
            ),
          } as const,
        ]),
    {
      block: 'paragraph',
      soft: true,
      text: `SHA-256 of the data, over one line a sweep (hash, two spaces, id, line feed): ${frame.dataSha256}.`,
    },
    {
      block: 'paragraph',
      soft: true,
      text:
        head === null
          ? 'This archive keeps no chain of its records yet.'
          : `Head of the archive\u2019s chain of records when this was printed: record ${head.seq} of device ${head.device}, ${head.hash}. The records are tamper-evident, not tamper-proof: whoever owns the file can write it anew, but not so that it ends in this head again. Keep this page to prove it.`,
    },
    { block: 'heading', level: 3, text: 'Sources of the rules' },
    { block: 'list', items: SOURCES },
  ];
}
