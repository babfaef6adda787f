import { done, type Result, refuse } from '../../result.ts';
import { Station } from '../station.ts';
import type { Response } from './response.ts';

export type MeasuredCurve = readonly (readonly [number, number])[];

/** A plug-in has no gain; a measurement may be off by so much. */
const MOST_GAIN_DB = 0.5;
/** Straight lines between so many points are finer than any meter. */
const MOST_POINTS = 2000;

/**
 * The loss of a plug-in as a network analyser measured it.
 * @param response  S21 of the plug-in, in 75 ohm
 * @param fileName  named in every refusal
 * @returns  points of [MHz, loss in dB], rising, to a thousandth; or a refusal of what is no plug-in in 75 ohm
 * @source   contract, section 2, `curves`
 */
export function measuredCurve(response: Response, fileName: string): Result<MeasuredCurve> {
  const { quantity, points, referenceOhm } = response;
  if (quantity !== 'S21')
    return refuse('not-s21', fileName, 'one port holds a reflection; a loss needs S21, a .s2p file');
  if (referenceOhm !== 75)
    return refuse(
      'not-75-ohm',
      fileName,
      `it was measured in ${referenceOhm} ohm; a loss in a 75 ohm line needs a 75 ohm measurement`,
    );
  const usable = points.filter(({ frequencyMhz }) => frequencyMhz > 0);
  const loud = usable.find(({ gainDb }) => gainDb > MOST_GAIN_DB);
  if (loud !== undefined)
    return refuse(
      'gain',
      `${fileName}, ${loud.frequencyMhz} MHz`,
      `S21 is a gain of ${loud.gainDb.toFixed(1)} dB; a plug-in has a loss`,
    );
  const highMhz = usable.at(-1)?.frequencyMhz ?? 0;
  if (highMhz < 5 || (usable[0]?.frequencyMhz ?? 0) > 1218)
    return refuse(
      'span',
      fileName,
      `it spans ${usable[0]?.frequencyMhz ?? 0} to ${highMhz} MHz, no band of a cable network; check the unit in the option line`,
    );
  if (usable.length > MOST_POINTS)
    return refuse('too-many', fileName, `${usable.length} points; export at most ${MOST_POINTS}`);
  return done(
    usable.map(({ frequencyMhz, gainDb }) => [frequencyMhz, Number((-gainDb).toFixed(3)) + 0] as const),
  );
}

/**
 * A station with the measured loss of one value at one position.
 * @param station   as in its file
 * @param position  its name
 * @param valueDb   the value on the label, dB; one of the position's
 * @param curve     points of [MHz, dB]
 * @returns  the station with the curve, whole and checked; or a refusal of a position or a value that it does not have
 * @source   contract, section 2, `curves`
 */
export function withCurve(
  station: Station,
  position: string,
  valueDb: number,
  curve: MeasuredCurve,
): Result<Station> {
  const found = station.positions.find(({ name }) => name === position);
  if (found === undefined)
    return refuse(
      'no-such-position',
      `position "${position}"`,
      `${station.name} has ${station.positions.map(({ name }) => `"${name}"`).join(', ')}`,
    );
  if (found.installed !== valueDb && !found.values.includes(valueDb))
    return refuse(
      'bad-value',
      `value ${valueDb}`,
      `"${position}" has ${[...new Set([found.installed, ...found.values])].join(', ')}`,
    );
  // One curve a value, whatever spelling its key had.
  const others = Object.entries(found.curves ?? {}).filter(([key]) => Number(key) !== valueDb);
  const curves = Object.fromEntries([
    ...others,
    [String(valueDb), curve.map(([mhz, db]): [number, number] => [mhz, db])],
  ]);
  const positions = station.positions.map((one) => (one === found ? { ...one, curves } : one));
  return done(Station.parse({ ...station, positions }));
}

/**
 * A station in which a value's loss is that of its label again.
 * @param station   as in its file
 * @param position  its name
 * @param valueDb   the value on the label, dB
 * @returns  the station without that curve; the same where there is none
 * @source   contract, section 2, `curves`
 */
export function withoutCurve(station: Station, position: string, valueDb: number): Station {
  const positions = station.positions.map((one) => {
    if (one.name !== position || one.curves === undefined) return one;
    const { curves, ...bare } = one;
    const others = Object.entries(curves).filter(([key]) => Number(key) !== valueDb);
    return others.length === 0 ? bare : { ...bare, curves: Object.fromEntries(others) };
  });
  return Station.parse({ ...station, positions });
}
