import { dayWords, localTime } from '../words/local-time.ts';
import {
  capital,
  counted,
  mhz,
  oneDecimal,
  plugIn,
  signedDb,
  signedDecimal,
  temperature,
} from '../words/numbers.ts';
import type { Block, ReportDocument } from './document.ts';
import { type HistoryPoint, historyPicture } from './history-picture.ts';
import type { ReportFrame, ReportVisit } from './material.ts';
import { findingSentence } from './port-section.ts';
import { type JudgedSweep, lastOf, type PortView, portView } from './port-view.ts';
import { recordSection } from './record-section.ts';
import { markOf, verdictWord } from './standing-table.ts';
import { cautionBlock, footOf } from './visit.ts';

type Told = Readonly<{ visit: ReportVisit; day: string; view: PortView }>;

/** A visit that read once, and left the station so. */
const isLeftOnly = ({ left, found }: PortView): boolean => left === null && found.sweep.purpose === 'as-left';

const dayOf = (visit: ReportVisit): string => localTime(visit.startedAt, visit.place).day;

function pointsOf(
  told: readonly Told[],
  figureOf: (judged: JudgedSweep) => number | null,
): readonly HistoryPoint[] {
  return told.map(({ visit, day, view }) => ({
    atMs: Date.parse(visit.startedAt),
    day,
    foundDb: isLeftOnly(view) ? null : figureOf(view.found),
    leftDb:
      view.left === null
        ? view.found.sweep.purpose === 'as-left'
          ? figureOf(view.found)
          : null
        : figureOf(view.left),
  }));
}

const worstCell = ({ standing, unjudged }: JudgedSweep) => {
  if (standing === null) return { text: unjudged === null ? 'no design' : 'not judged', soft: true };
  const part = { ...standing, deviationDb: standing.worst.deviationDb };
  return {
    text: `${signedDecimal(standing.worst.deviationDb)}, ${part.verdict === 'fail' ? 'not good' : verdictWord(part)}`,
    mark: markOf(part),
  };
};

/** One port over all visits: how far it was off, and what was found each time. */
function portHistory(told: readonly Told[], frame: ReportFrame): readonly Block[] {
  const [first] = told;
  if (first === undefined) return [];
  const { port } = first.view;
  const design = port.design ?? null;
  const pictures: Block[] =
    design === null
      ? []
      : [
          {
            block: 'figure',
            picture: historyPicture(
              'worst channel, dB',
              pointsOf(told, ({ standing }) => standing?.worst.deviationDb ?? null),
              design.toleranceDb,
            ),
            caption:
              'Worst channel from design at each visit. Ring: as found. Dot: as left. Grey band: what the design allows.',
            words: `Worst channel at the ${port.name}: ${told.map(({ day, view }) => `${day} ${signedDecimal(lastOf(view).standing?.worst.deviationDb ?? 0)} dB`).join(', ')}.`,
          },
          {
            block: 'figure',
            picture: historyPicture(
              'tilt from design, dB',
              pointsOf(told, ({ standing }) => standing?.tilt.deviationDb ?? null),
              2 * design.toleranceDb,
            ),
            caption: 'Tilt from design at each visit.',
            words: `Tilt from design at the ${port.name}: ${told.map(({ day, view }) => `${day} ${signedDecimal(lastOf(view).standing?.tilt.deviationDb ?? 0)} dB`).join(', ')}.`,
          },
        ];
  return [
    { block: 'heading', level: 2, text: capital(port.name) },
    ...pictures,
    {
      block: 'table',
      caption: 'Visit by visit',
      columns: [
        { title: 'Day', align: 'start', share: 2.5 },
        { title: 'Worst as found, dB', align: 'start', share: 2.3 },
        { title: 'Worst as left, dB', align: 'start', share: 2.3 },
        { title: 'Tilt, dB', align: 'end', share: 0.9 },
        { title: 'Flatness, dB', align: 'end', share: 1.3 },
        { title: 'Finding', align: 'start', share: 3.6 },
      ],
      rows: told.map(({ day, view }) => {
        const last = lastOf(view);
        const tiltDb = last.standing?.tilt.valueDb ?? last.fit?.tiltDb;
        const flatnessDb = last.standing?.flatness.valueDb ?? last.fit?.flatnessDb;
        return [
          { text: dayWords(day) },
          isLeftOnly(view) ? { text: '' } : worstCell(view.found),
          view.left !== null ? worstCell(view.left) : isLeftOnly(view) ? worstCell(view.found) : { text: '' },
          { text: tiltDb === undefined ? '' : oneDecimal(tiltDb) },
          { text: flatnessDb === undefined ? '' : oneDecimal(flatnessDb) },
          { text: findingSentence(last, frame.units.levelUnit) },
        ];
      }),
    },
  ];
}

const changesOf = ({ fittings, turns }: ReportVisit): string =>
  [
    ...fittings.map(({ position, from, to }) => `${position} ${plugIn(from)} to ${plugIn(to)}`),
    ...turns.map(({ trim, byDb, atMhz }) => `${trim} turned ${signedDb(byDb)} at ${mhz(atMhz)}`),
  ].join(', ');

/** The newest finding of the first port with a design, as the report's first sentence. */
function newestFinding(ports: readonly (readonly Told[])[], frame: ReportFrame): Block | null {
  const told = ports.find((one) => one[0]?.view.port.design !== undefined) ?? ports[0];
  const newest = told?.at(-1);
  if (newest === undefined) return null;
  const last = lastOf(newest.view);
  const { standing } = last;
  const part = standing === null ? null : { ...standing, deviationDb: standing.worst.deviationDb };
  return {
    block: 'finding',
    lead: `Newest, ${dayWords(newest.day)}, ${newest.view.port.name}`,
    text: findingSentence(last, frame.units.levelUnit),
    mark: part === null ? null : markOf(part),
    word: part === null ? '' : part.verdict === 'fail' ? 'not good' : verdictWord(part),
  };
}

/**
 * A station's history as a document: every visit, how each port was found and left, and what was changed.
 * @param visits  of the station, oldest first
 * @param frame   the station and what holds for the whole report
 * @source   see `portView`; every number is core's
 */
export function historyReport(visits: readonly ReportVisit[], frame: ReportFrame): ReportDocument {
  const { station } = frame;
  const ports = station.ports
    .map((port) =>
      visits.flatMap((visit) => {
        const view = portView(port, visit.sweeps, frame);
        return view === null ? [] : [{ visit, day: dayOf(visit), view }];
      }),
    )
    .filter((told) => told.length > 0);
  const [first] = visits;
  const last = visits.at(-1);
  const finding = newestFinding(ports, frame);
  const span =
    first === undefined || last === undefined
      ? 'no visit yet'
      : `${dayWords(dayOf(first))} to ${dayWords(dayOf(last))}`;
  return {
    kind: 'pages',
    title: `${station.name}, history`,
    subject: `Tiltwright report of every visit to ${station.id}`,
    language: 'en',
    madeAt: frame.madeAt,
    masthead: {
      over: 'Station history',
      title: station.name,
      aside: [counted(visits.length, 'visit', 'visits'), span],
    },
    blocks: [
      ...(finding === null
        ? [
            {
              block: 'paragraph',
              text: 'Nothing was read at this station yet: begin a visit and read it.',
            } as const,
          ]
        : [finding]),
      ...ports.flatMap((told) => portHistory(told, frame)),
      { block: 'heading', level: 2, text: 'Visits' },
      {
        block: 'table',
        caption: 'Who was there, and what was changed',
        columns: [
          { title: 'Day', align: 'start', share: 2 },
          { title: 'By', align: 'start', share: 2 },
          { title: 'Weather', align: 'end', share: 1 },
          { title: 'Parts changed, dB', align: 'start', share: 3.2 },
          { title: 'Note', align: 'start', share: 3 },
        ],
        rows: visits.map((visit) => [
          { text: dayWords(dayOf(visit)) },
          { text: visit.operator === '' ? 'not written down' : visit.operator },
          { text: visit.ambientC === null ? '' : temperature(visit.ambientC, frame.units.temperatureUnit) },
          { text: changesOf(visit) || 'none', soft: changesOf(visit) === '' },
          { text: visit.note, soft: true },
        ]),
        empty: 'no visit yet.',
      },
      cautionBlock(null),
      ...recordSection(visits, frame),
    ],
    foot: footOf(`${station.name}, history, printed with Tiltwright ${frame.program}`, frame),
  };
}
