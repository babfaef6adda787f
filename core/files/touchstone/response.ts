import type { LevelRow } from '../../line/level-row.ts';
import { done, type Result, refuse } from '../../result.ts';
import { readTouchstone, type Touchstone } from './read-touchstone.ts';
import { s21In } from './renormalised.ts';

/** What goes through a two-port, or comes back from a one-port, over frequency. */
export type Response = Readonly<{
  /** Gain is positive, dB. */
  quantity: 'S21' | 'S11';
  points: readonly Readonly<{ frequencyMhz: number; gainDb: number }>[];
  referenceOhm: number;
  /** What a person should know of the file, a sentence each. */
  notes: readonly string[];
}>;

/** A cable network's frequencies, with room on both sides; a span that misses them was read in a wrong unit. */
const PLAUSIBLE_MHZ = [1, 3000] as const;

const optionLine = /^#[ \t]*(?:[kmg]?hz[ \t]+)?[syzgh][ \t]+(?:ma|db|ri)\b/i;

/**
 * Whether a file is a Touchstone file: by its ending, or by its option line.
 * @param text      as decoded
 * @param fileName  its ending counts
 * @returns  true for .s1p to .s99p and .ts, and for text that begins with comments and an option line
 * @source   Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009
 */
export function isTouchstone(text: string, fileName: string): boolean {
  if (/\.(s\d{1,2}p|ts)$/i.test(fileName)) return true;
  // Line by line: one pattern over all of them would try every way to part a thousand blank lines.
  for (const line of text.slice(0, 20_000).split(/\r\n?|\n/)) {
    const said = line.replace(/^\uFEFF/, '').trim();
    if (said === '' || said.startsWith('!') || /^\[version\]/i.test(said)) continue;
    return optionLine.test(said);
  }
  return false;
}

const OTHER_REFERENCE =
  'the reference is not 75 ohm, so in a 75 ohm line the response differs by its mismatch';

function notesOf(file: Touchstone, lowMhz: number, highMhz: number): string[] {
  const { options, noiseCount, version } = file;
  const unit = options.unitIsTold
    ? `in ${options.unit}`
    : 'in GHz, which holds where the option line names no unit';
  return [
    `Touchstone ${version}: ${file.points.length} ${file.points.length === 1 ? 'point' : 'points'} ${unit}, ${lowMhz} to ${highMhz} MHz, ${file.referencesOhm.join(' and ')} ohm`,
    ...(noiseCount === 0 ? [] : [`${noiseCount} rows of noise data were passed over`]),
    ...(lowMhz > PLAUSIBLE_MHZ[1] || highMhz < PLAUSIBLE_MHZ[0]
      ? ['this span is none of a cable network; check the unit of frequency in the option line']
      : []),
    ...(file.referencesOhm.every((ohm) => ohm === 75) ? [] : [OTHER_REFERENCE]),
  ];
}

/**
 * A Touchstone file's response.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @returns  S21 of a two-port or S11 of a one-port in dB, MHz rising; or a refusal: what can't be read, Y, Z, G or H
 *           parameters, more than two ports, a gain of nothing at all
 * @source   contract, section 1; Touchstone File Format Specification, version 2.0, IBIS Open Forum, 2009
 */
export function readResponse(text: string, fileName: string): Result<Response> {
  const file = readTouchstone(text, fileName);
  if (!file.ok) return file;
  const { ports, options, points, referencesOhm } = file.value;
  if (options.parameter !== 'S')
    return refuse(
      'not-s',
      fileName,
      `it holds ${options.parameter} parameters, which are no response; export S parameters`,
    );
  if (ports > 2)
    return refuse(
      'many-ports',
      fileName,
      `it has ${ports} ports, and which two the response lies between is not certain; export those two as .s2p`,
    );
  const wanted = ports === 2 ? 2 : 0;
  const response: { frequencyMhz: number; gainDb: number }[] = [];
  for (const { frequencyMhz, parameters, line } of points) {
    const db = parameters[wanted]?.db ?? null;
    if (db === null)
      return refuse(
        'no-gain',
        `${fileName}, line ${line}`,
        `${ports === 2 ? 'S21' : 'S11'} is 0 here, which has no value in dB`,
      );
    response.push({ frequencyMhz, gainDb: db });
  }
  const lowMhz = response[0]?.frequencyMhz ?? 0;
  const highMhz = response.at(-1)?.frequencyMhz ?? 0;
  return done({
    quantity: ports === 2 ? 'S21' : 'S11',
    points: response,
    referenceOhm: referencesOhm[0] ?? options.referenceOhm,
    notes: notesOf(file.value, lowMhz, highMhz),
  });
}

const LINE_OHM = 75;

/**
 * The response of a plug-in in a line of 75 ohm, whatever it was measured in.
 * @param text      as decoded
 * @param fileName  named in every refusal
 * @returns  as `readResponse`; S21 of a two-port that was measured in another impedance is renormalised to 75 ohm with
 *           all four S parameters, which is exact, and a note says so
 * @source   contract, section 2, `curves`; core/files/touchstone/renormalised.ts
 */
export function readPlugInResponse(text: string, fileName: string): Result<Response> {
  const response = readResponse(text, fileName);
  const file = readTouchstone(text, fileName);
  if (!response.ok) return response;
  if (!file.ok) return file;
  const [one = LINE_OHM, two = one] = file.value.referencesOhm;
  if (file.value.ports !== 2 || (one === LINE_OHM && two === LINE_OHM)) return response;
  const points: { frequencyMhz: number; gainDb: number }[] = [];
  for (const { frequencyMhz, parameters, line } of file.value.points) {
    const gainDb = s21In(parameters, [one, two], LINE_OHM);
    if (gainDb === null)
      return refuse(
        'no-gain',
        `${fileName}, line ${line}`,
        `this point has no S21 in ${LINE_OHM} ohm; measure it in ${LINE_OHM} ohm`,
      );
    points.push({ frequencyMhz, gainDb });
  }
  const from = one === two ? `${one}` : `${one} and ${two}`;
  return done({
    ...response.value,
    points,
    referenceOhm: LINE_OHM,
    notes: [
      ...response.value.notes.filter((note) => note !== OTHER_REFERENCE),
      `S21 was measured in ${from} ohm and is renormalised to ${LINE_OHM} ohm with all four S parameters`,
    ],
  });
}

/**
 * A response as the rows that are fitted and looked at for faults; its dB stand where levels stand.
 * @param response  of a two-port or a one-port
 * @returns  a row for each point above 0 MHz
 * @source   contract, section 1: S21 in dB is a response, not a level
 */
export const rowsOfResponse = ({ points }: Response): LevelRow[] =>
  points
    .filter(({ frequencyMhz }) => frequencyMhz > 0)
    .map(({ frequencyMhz, gainDb }) => ({ frequencyMhz, levelDbmv: gainDb }));
