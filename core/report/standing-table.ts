import type { Design } from '../files/station.ts';
import type { SweepFit } from '../line/fit-sweep.ts';
import type { StationStanding } from '../line/standing.ts';
import type { Judged } from '../line/verdicts.ts';
import { goodToDb } from '../uncertainty/shares.ts';
import {
  bareLevel,
  bareMhz,
  type LevelUnitWord,
  level,
  levelWord,
  oneDecimal,
  plusMinus,
  signedDecimal,
  sizeDb,
  sureWords,
} from '../words/numbers.ts';
import type { Block, Cell, Mark } from './document.ts';
import { lastOf, type PortView } from './port-view.ts';

type Part = Judged & Readonly<{ deviationDb: number }>;

/**
 * A verdict's word, the same as on the station sheet.
 * @param part  its verdict and on which side it lies, dB
 * @source   this program's own
 */
export const verdictWord = ({ verdict, deviationDb }: Part): string =>
  verdict === 'undecided' ? 'undecided' : verdict === 'pass' ? 'good' : deviationDb < 0 ? 'low' : 'high';

/**
 * A verdict's shape, the same as on the station sheet.
 * @param part  its verdict and on which side it lies, dB
 * @source   this program's own
 */
export const markOf = ({ verdict, deviationDb }: Part): Mark => ({
  verdict,
  pointing: deviationDb < 0 ? 'down' : 'up',
});

type Figure = Readonly<{
  name: string;
  value: (standing: StationStanding) => string;
  part: (standing: StationStanding) => Part;
  wants: string;
  beside: string;
}>;

function figuresOf(design: Design, unit: LevelUnitWord): readonly Figure[] {
  const dbmv = levelWord(unit);
  // What a level is good to is a ratio: beside millivolts it needs its own unit.
  const besideDb = unit === 'mV' ? '\u00A0dB' : '';
  return [
    {
      name: 'Worst channel, dB',
      value: ({ worst }) => `${signedDecimal(worst.deviationDb)} at ${bareMhz(worst.frequencyMhz)}`,
      part: ({ worst }) => worst,
      wants: `within \u00B1${oneDecimal(design.toleranceDb)}\u00A0dB`,
      beside: '',
    },
    {
      name: `Level, high, ${dbmv}`,
      value: ({ levelHigh }) => bareLevel(levelHigh.valueDbmv, unit),
      part: ({ levelHigh }) => levelHigh,
      wants: `${level(design.highDbmv, unit)} at ${bareMhz(design.highMhz)}`,
      beside: besideDb,
    },
    {
      name: `Level, low, ${dbmv}`,
      value: ({ levelLow }) => bareLevel(levelLow.valueDbmv, unit),
      part: ({ levelLow }) => levelLow,
      wants: `${level(design.lowDbmv, unit)} at ${bareMhz(design.lowMhz)}`,
      beside: besideDb,
    },
    {
      name: 'Tilt, dB',
      value: ({ tilt }) => oneDecimal(tilt.valueDb),
      part: ({ tilt }) => tilt,
      wants: `${oneDecimal(design.highDbmv - design.lowDbmv)}\u00A0dB`,
      beside: '',
    },
    {
      name: 'Flatness, dB',
      value: ({ flatness }) => oneDecimal(flatness.valueDb),
      part: ({ flatness }) => flatness,
      wants: `up to ${sizeDb(design.flatnessDb)}`,
      beside: '',
    },
  ];
}

const goodTo = ({ uDb }: Judged, beside: string): string =>
  uDb === undefined ? '' : `${plusMinus(goodToDb(uDb))}${beside}`;

const verdictCell = (part: Part): Cell => ({
  text:
    part.probability === undefined
      ? verdictWord(part)
      : `${verdictWord(part)}, ${sureWords(part.verdict, part.probability)}`,
  mark: markOf(part),
});

const lineTable = (fit: SweepFit, unit: LevelUnitWord): Block => ({
  block: 'table',
  caption: 'Its line; no design says what it should be',
  columns: [
    { title: 'Figure', align: 'start', share: 3 },
    { title: 'Value', align: 'end', share: 1 },
  ],
  rows: (
    [
      [`Level, high, ${levelWord(unit)}`, bareLevel(fit.highDbmv, unit)],
      [`Level, low, ${levelWord(unit)}`, bareLevel(fit.lowDbmv, unit)],
      ['Tilt, dB', oneDecimal(fit.tiltDb)],
      ['Flatness, dB', oneDecimal(fit.flatnessDb)],
    ] as const
  ).map(([name, value]) => [{ text: name }, { text: value, bold: true }]),
});

/**
 * The figures of a port, as found beside as left, with what the design wants, what each is good to and how it stands.
 * @param view  of one port at one visit
 * @param unit  levels are written in
 * @returns  a table; of the line alone where there is no design; null where nothing can be told
 * @source   every figure: `standingAgainstDesign`; what it is good to: JCGM 100:2008, 6.2.1 (from memory)
 */
export function standingTable(view: PortView, unit: LevelUnitWord): Block | null {
  const last = lastOf(view);
  const { standing, design, fit } = last;
  if (standing === null || design === null) return fit === null ? null : lineTable(fit, unit);
  const found = view.left === null ? null : view.found.standing;
  return {
    block: 'table',
    caption: 'How it stands',
    columns: [
      { title: 'Figure', align: 'start', share: 2.6 },
      ...(found === null ? [] : [{ title: 'As found', align: 'end', share: 1.7 } as const]),
      { title: found === null ? 'Read' : 'As left', align: 'end', share: 1.7 },
      { title: 'Good to', align: 'end', share: 1.1 },
      { title: 'Design wants', align: 'end', share: 2.3 },
      { title: 'Standing', align: 'start', share: 2.3 },
    ],
    rows: figuresOf(design, unit).map(({ name, value, part, wants, beside }) => [
      { text: name },
      ...(found === null ? [] : [{ text: value(found), soft: true }]),
      { text: value(standing), bold: true },
      { text: goodTo(part(standing), beside), soft: true },
      { text: wants, soft: true },
      verdictCell(part(standing)),
    ]),
  };
}
