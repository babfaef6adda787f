import { calibrationAt } from '../meters/calibration.ts';
import { CAUTIONS, CAUTIONS_DEFER } from '../words/cautions.ts';
import { dayWords, localTime, momentWords } from '../words/local-time.ts';
import { capital, temperature } from '../words/numbers.ts';
import type { Block, Fact, ReportDocument } from './document.ts';
import type { MeterFacts, ReportFrame, ReportSweep, ReportVisit } from './material.ts';
import { partsSection } from './parts-section.ts';
import { findingBlock, portSection } from './port-section.ts';
import { lastOf, type PortView, portView } from './port-view.ts';
import { readingsTable } from './readings-table.ts';
import { recordSection } from './record-section.ts';
import { setUpSection } from './set-up-section.ts';
import { uncertaintySection } from './uncertainty-section.ts';

/**
 * The ports that a visit read, those with a design first and the forward ones before the return ones.
 * @source   common practice, no published source
 */
export function portsOf(visit: ReportVisit, frame: ReportFrame): readonly PortView[] {
  const rank = ({ port }: PortView) =>
    (port.design === undefined ? 2 : 0) + (port.direction === 'forward' ? 0 : 1);
  return frame.station.ports
    .flatMap((port) => portView(port, visit.sweeps, frame) ?? [])
    .sort((a, b) => rank(a) - rank(b));
}

/** A meter as a record names it; of several, each once. */
function metersOf(sweeps: readonly ReportSweep[]): readonly Readonly<{ meter: MeterFacts; day: string }>[] {
  const seen = new Map<string, { meter: MeterFacts; day: string }>();
  for (const { meter, startedAt } of sweeps)
    if (meter !== null)
      seen.set(`${meter.model} ${meter.serialNumber}`, { meter, day: startedAt.slice(0, 10) });
  return [...seen.values()];
}

function calibrationText(meter: MeterFacts, day: string): string {
  const known = calibrationAt(meter, day);
  const on = meter.calibratedOn === undefined ? '' : `calibrated ${dayWords(meter.calibratedOn)}, `;
  switch (known.at) {
    case 'unknown':
      return 'calibration date not known';
    case 'good':
      return `${on}counts to ${dayWords(known.dueOn)}`;
    case 'past':
      return `${on}past since ${dayWords(known.dueOn)}`;
  }
}

function factsOf(visit: ReportVisit, frame: ReportFrame): readonly Fact[] {
  const meters = metersOf(visit.sweeps);
  const { ambientC, place } = visit;
  const ended = visit.endedAt === null ? null : localTime(visit.endedAt, place);
  return [
    {
      name: 'When',
      value: momentWords(visit.startedAt, place),
      note: `${ended === null ? 'the visit is still open' : `ended ${ended.clock}\u00A0${ended.offset}`}, ${place.timeZone}`,
    },
    { name: 'By', value: visit.operator === '' ? 'not written down' : visit.operator },
    {
      name: 'Weather',
      value: ambientC === null ? 'not written down' : temperature(ambientC, frame.units.temperatureUnit),
    },
    ...(meters.length === 0
      ? [{ name: 'Meter', value: visit.sweeps.length === 0 ? 'none' : 'none: levels from a file' }]
      : meters.map(({ meter, day }) => ({
          name: 'Meter',
          value: `${meter.maker} ${meter.model}, serial number ${meter.serialNumber}`,
          note: `${calibrationText(meter, day)}; firmware ${meter.firmware}`,
        }))),
    {
      name: 'Station file',
      value: `${frame.station.id}, revision ${frame.revision}`,
    },
    { name: 'Program', value: `Tiltwright ${visit.program}` },
  ];
}

/**
 * The frame of what to be careful of: the words that the technician read at the visit's beginning.
 * @param readAt  when, in words; null for a report that is no visit's
 * @source   design: line power, height, laser light, leakage; the words are this program's own
 */
export const cautionBlock = (readAt: string | null): Block => ({
  block: 'caution',
  title: readAt === null ? 'Cautions' : `Cautions, read ${readAt}`,
  items: CAUTIONS.map(({ lead, text }) => `${lead} ${text}`),
  last: CAUTIONS_DEFER,
});

/**
 * The foot of each page, two lines: what the report is of, and the hashes that tie the paper to the records.
 * @param what  a few words
 * @source   this program's own
 */
export const footOf = (what: string, frame: ReportFrame): readonly string[] => [
  what,
  [
    `data SHA-256 ${frame.dataSha256.slice(0, 24)}\u2026`,
    ...(frame.head === null ? [] : [`chain head ${frame.head.seq}, ${frame.head.hash.slice(0, 24)}\u2026`]),
  ].join('  \u00B7  '),
];

/**
 * A visit as a document: the finding first, then what shows it, what was done, and what it rests on.
 * @param visit  its records
 * @param frame  the station and what holds for the whole report
 * @returns  the one document that both the PDF and the HTML page are drawn from
 * @source   design, "the moments that decide"; every number is core's
 */
export function visitReport(visit: ReportVisit, frame: ReportFrame): ReportDocument {
  const { place } = visit;
  const ports = portsOf(visit, frame);
  const [first, ...others] = ports;
  const { name } = frame.station;
  const day = dayWords(localTime(visit.startedAt, place).day);
  const blocks: Block[] = [
    ...(first === undefined
      ? [
          {
            block: 'finding',
            lead: 'Nothing to judge',
            text: 'No reading of this visit counts',
            mark: null,
            word: '',
          } as const,
        ]
      : [findingBlock(first, frame)]),
    { block: 'facts', facts: factsOf(visit, frame) },
    ...(first === undefined ? [] : portSection(first, place, frame)),
    ...partsSection(visit, frame),
    ...others.flatMap((view) => [
      { block: 'heading', level: 2, text: capital(view.port.name) } as const,
      findingBlock(view, frame),
      ...portSection(view, place, frame),
    ]),
    ...visit.setUps.flatMap((setUp) => setUpSection(setUp, place, frame)),
    ...(visit.note.trim() === ''
      ? []
      : [
          { block: 'heading', level: 2, text: 'Note' } as const,
          ...visit.note
            .split(/\n+/)
            .filter((line) => line.trim() !== '')
            .map((text) => ({ block: 'paragraph', text }) as const),
        ]),
    ...(first === undefined ? [] : uncertaintySection(lastOf(first))),
    cautionBlock(momentWords(visit.cautionsReadAt, place)),
    {
      block: 'signatures',
      names: [visit.operator === '' ? 'Technician' : `Technician: ${visit.operator}`, 'Checked by'],
    },
    ...recordSection([visit], frame),
    ...(ports.length === 0 ? [] : [{ block: 'heading', level: 2, text: 'Readings' } as const]),
    ...ports.map((view) => readingsTable(view, frame.units.levelUnit)),
  ];
  return {
    kind: 'pages',
    title: `${name}, visit of ${day.replace('\u00A0', ' ')}`,
    subject: `Tiltwright report of visit ${visit.visitId}`,
    language: 'en',
    madeAt: frame.madeAt,
    masthead: {
      over: 'Station visit',
      title: name,
      aside: [day, `visit ${visit.visitId.slice(0, 8)}`],
    },
    blocks,
    foot: footOf(`${name}, visit ${visit.visitId}`, frame),
  };
}
