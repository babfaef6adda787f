import { localTime } from '../words/local-time.ts';
import { capital, mhz, oneDecimal, plugIn, signedDb } from '../words/numbers.ts';
import type { Block } from './document.ts';
import type { ReportFrame, ReportVisit } from './material.ts';

const kindWords = { pad: 'pad', equalizer: 'equalizer', 'cable-simulator': 'cable simulator' } as const;

/**
 * What is plugged in, what was changed, what was turned, and the trims that the station has.
 * @param visit  its fittings and turns, and what was in at its end
 * @returns  blocks; the trims only where some were turned or the station's notes name some
 * @source   records of the visit
 */
export function partsSection(visit: ReportVisit, frame: ReportFrame): readonly Block[] {
  const { positions } = frame.station;
  const rows = positions.map((position) => {
    const own = visit.fittings.filter((fitting) => fitting.position === position.name);
    const [first] = own;
    const now = visit.pluggedIn[position.name] ?? position.installed;
    const changed = first !== undefined && first.from !== now;
    return [
      { text: capital(position.name), bold: changed },
      { text: kindWords[position.kind], soft: true },
      { text: plugIn(first?.from ?? now), soft: !changed },
      { text: plugIn(now), bold: changed },
      {
        text:
          own.length === 0
            ? 'unchanged'
            : `${changed ? 'changed' : 'changed and put back'} ${own.map(({ at }) => localTime(at, visit.place).clock).join(', ')}`,
        soft: !changed,
      },
    ];
  });
  const trims = frame.trims.map(
    ({ name, kind, atMhz, rangeDb: [downDb, upDb] }) =>
      `${capital(name)} (${kind}, full effect at ${atMhz}\u00A0MHz): can still be turned ${oneDecimal(Math.abs(downDb))}\u00A0dB down and ${oneDecimal(upDb)}\u00A0dB up.`,
  );
  return [
    { block: 'heading', level: 2, text: 'Parts' },
    {
      block: 'table',
      caption: 'What is plugged in; values as printed on the parts, dB',
      columns: [
        { title: 'Position', align: 'start', share: 2.4 },
        { title: 'Kind', align: 'start', share: 1.8 },
        { title: 'As found', align: 'end', share: 1 },
        { title: 'As left', align: 'end', share: 1 },
        { title: '', align: 'start', share: 2.4 },
      ],
      rows,
      empty: 'This station has no positions for plug-ins.',
    },
    ...(trims.length + visit.turns.length === 0
      ? []
      : [{ block: 'heading', level: 3, text: 'Trims' } as const]),
    ...(visit.turns.length === 0 ? [] : [turnedTable(visit)]),
    ...(trims.length === 0 ? [] : [{ block: 'list', items: trims } as const]),
  ];
}

const turnedTable = ({ turns, place }: ReportVisit): Block => ({
  block: 'table',
  caption: 'What was turned, at the frequency where each trim has its full effect',
  columns: [
    { title: 'Trim', align: 'start', share: 2.4 },
    { title: 'Port', align: 'start', share: 2.4 },
    { title: 'At', align: 'end', share: 1.2 },
    { title: 'Turned', align: 'end', share: 1.2 },
    { title: 'When', align: 'end', share: 1 },
  ],
  rows: turns.map(({ at, trim, portName, atMhz, byDb }) => [
    { text: capital(trim), bold: true },
    { text: capital(portName), soft: true },
    { text: mhz(atMhz) },
    { text: signedDb(byDb), bold: true },
    { text: localTime(at, place).clock },
  ]),
  empty: 'Nothing was turned.',
});
