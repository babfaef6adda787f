import { done, type Result, refuse } from '../../result.ts';
import { mhzFromWritten } from '../frequency-unit.ts';
import { vastRefusal } from '../text-size.ts';
import { type NumberFormat, readOptionLine, type TouchstoneOptions } from './option-line.ts';
import { type Keywords, numbersOf, sectionsOf } from './sections.ts';

/** A complex number as decibels and degrees; `-Infinity` never stands here: a magnitude of 0 is null. */
export type Polar = Readonly<{ db: number | null; degrees: number }>;

export type NetworkPoint = Readonly<{
  frequencyMhz: number;
  line: number;
  /** Row by row: 11 12 ... 21 22 ..., also where the file has 21 before 12. */
  parameters: readonly Polar[];
}>;

/** A Touchstone file as it stands. */
export type Touchstone = Readonly<{
  version: '1' | '2';
  ports: number;
  options: TouchstoneOptions;
  /** Ohm of each port. */
  referencesOhm: readonly number[];
  points: readonly NetworkPoint[];
  /** Rows of noise data, which no response needs. */
  noiseCount: number;
}>;

const polarOf = (a: number, b: number, format: NumberFormat): Polar => {
  if (format === 'DB') return { db: a, degrees: b };
  const magnitude = format === 'MA' ? Math.abs(a) : Math.hypot(a, b);
  const turned = format === 'MA' ? (a < 0 ? b + 180 : b) : (Math.atan2(b, a) * 180) / Math.PI;
  return { db: magnitude === 0 ? null : 20 * Math.log10(magnitude), degrees: turned };
};

const portsByName = (fileName: string): number | null => {
  const match = /\.s(\d{1,2})p$/i.exec(fileName);
  return match === null ? null : Number(match[1]);
};

/** How many numbers make a point: a frequency and a pair for each parameter that is written. */
const pointWidth = (ports: number, { matrix }: Keywords): number =>
  1 + 2 * (matrix === 'full' ? ports * ports : (ports * (ports + 1)) / 2);

/** Row by row from what is written: by rows, half a matrix, or 21 before 12 where there are two ports. */
function inRows(written: readonly Polar[], ports: number, keywords: Keywords): Polar[] {
  const at = (row: number, column: number): Polar => {
    const [low, high] = row < column ? [row, column] : [column, row];
    if (keywords.matrix === 'lower')
      return written[(high * (high + 1)) / 2 + low] ?? { db: null, degrees: 0 };
    if (keywords.matrix === 'upper')
      return written[low * ports - (low * (low - 1)) / 2 + high - low] ?? { db: null, degrees: 0 };
    const swapped = ports === 2 && keywords.twoPortOrder === '21_12';
    const index = swapped ? column * 2 + row : row * ports + column;
    return written[index] ?? { db: null, degrees: 0 };
  };
  return Array.from({ length: ports * ports }, (_, i) => at(Math.floor(i / ports), i % ports));
}

/**
 * A Touchstone file's text, tolerantly: comments anywhere, any case and spacing, wrapped lines, a byte order mark,
 * letters that are not UTF-8 in comments, a noise block behind the network data.
 * @param text      as decoded
 * @param fileName  named in every refusal; its ending tells the ports of version 1
 * @returns  the points in rising frequency; or a refusal with file and line: no data, ports that nothing tells,
 *           numbers that are none, frequencies that fall, data that is cut off, keywords of version 2 that are missing
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009
 */
export function readTouchstone(text: string, fileName: string): Result<Touchstone> {
  const vast = vastRefusal(text, fileName);
  if (vast !== null) return vast;
  const sections = sectionsOf(text, fileName);
  if (!sections.ok) return sections;
  const { keywords, optionLine, network, noiseCount } = sections.value;
  if (optionLine === null && network.length > 0) {
    const help =
      'there is no option line, so that unit and form of the numbers are not certain; add # MHz S DB R 75 or what holds';
    return refuse('bad-option', fileName, help);
  }
  const options = readOptionLine(optionLine?.text ?? '#', `${fileName}, line ${optionLine?.line ?? 1}`);
  if (!options.ok) return options;
  const ports = keywords.ports ?? portsByName(fileName);
  if (ports === null || !(ports >= 1 && ports <= 99))
    return refuse('no-ports', fileName, 'nothing tells the number of ports; name the file .s1p or .s2p');
  const width = pointWidth(ports, keywords);
  const points: NetworkPoint[] = [];
  let noise = noiseCount;
  let values: number[] = [];
  let begun = 0;
  let inNoise = false;
  for (const line of network) {
    const numbers = numbersOf(line, fileName);
    if (!numbers.ok) return numbers;
    const where = `${fileName}, line ${line.line}`;
    const [first = 0] = numbers.value;
    const last = points.at(-1)?.frequencyMhz ?? Number.NEGATIVE_INFINITY;
    const frequencyMhz = mhzFromWritten(first, options.value.unit);
    // Noise begins where, at the end of a point, the frequency falls back: five numbers a row.
    if (values.length === 0 && points.length > 0 && ports === 2 && keywords.version === '1')
      inNoise ||= numbers.value.length === 5 && frequencyMhz <= last;
    if (inNoise) {
      if (numbers.value.length !== 5)
        return refuse('bad-noise', where, `noise data has 5 numbers a row, not ${numbers.value.length}`);
      noise++;
      continue;
    }
    if (values.length === 0) begun = line.line;
    for (const value of numbers.value) values.push(value);
    while (values.length >= width) {
      const at = values.slice(0, width);
      values = values.slice(width);
      if (values.length > 0 && keywords.version === '1')
        return refuse(
          'too-many',
          where,
          `${width + values.length} numbers, where a point of ${ports} ports has ${width}`,
        );
      const pointMhz = mhzFromWritten(at[0] ?? 0, options.value.unit);
      const before = points.at(-1)?.frequencyMhz;
      if (!(pointMhz >= 0) || (before !== undefined && pointMhz <= before))
        return refuse(
          'not-rising',
          `${fileName}, line ${begun}`,
          `${at[0]} ${options.value.unit} does not rise above the point before; sort the points by frequency`,
        );
      const written = Array.from({ length: (width - 1) / 2 }, (_, i) =>
        polarOf(at[1 + 2 * i] ?? 0, at[2 + 2 * i] ?? 0, options.value.format),
      );
      if (
        written.some(({ db, degrees }) => (db !== null && !Number.isFinite(db)) || !Number.isFinite(degrees))
      )
        return refuse('out-of-range', where, 'a number here is too large for any parameter');
      points.push({ frequencyMhz: pointMhz, line: begun, parameters: inRows(written, ports, keywords) });
    }
  }
  if (values.length > 0)
    return refuse(
      'cut-off',
      `${fileName}, line ${begun}`,
      `${values.length} of ${width} numbers: the point is cut off`,
    );
  if (points.length === 0) return refuse('empty', fileName, 'there is no network data in this file');
  if (keywords.points !== null && keywords.points !== points.length)
    return refuse(
      'cut-off',
      fileName,
      `${points.length} ${points.length === 1 ? 'point' : 'points'}, where [Number of Frequencies] says ${keywords.points}`,
    );
  return done({
    version: keywords.version,
    ports,
    options: options.value,
    referencesOhm: keywords.referencesOhm ?? Array.from({ length: ports }, () => options.value.referenceOhm),
    points,
    noiseCount: noise,
  });
}
