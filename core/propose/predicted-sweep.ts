import type { PluggedIn, Station } from '../files/station.ts';
import type { Trim } from '../files/station-notes.ts';
import type { Truck } from '../files/truck.ts';
import type { LevelRow } from '../line/level-row.ts';
import {
  budgetOf,
  type Conditions,
  channelUncertaintyDb,
  combined,
  differenceUncertaintyDb,
  rectangular,
} from '../uncertainty/budget.ts';
import { predictRows } from './predict.ts';
import { keyAt, partKey } from './stock.ts';
import { type TrimMove, trimEffect } from './trims.ts';

/**
 * Half-width, dB: how far the loss of a plug-in may lie from its label where the truck's list says nothing. Common
 * practice, no published source.
 */
export const USUAL_PART_TOLERANCE_DB = 0.25;

export type PredictedPoint = Readonly<{
  frequencyMhz: number;
  /** dBmV at the port, as the row's own kind of signal is carried. */
  levelDbmv: number;
  /** Standard uncertainty of the level that will be there, dB. */
  uDb: number;
  /** Standard uncertainty of the difference to what the same meter will read next, dB. */
  toNextUDb: number;
}>;

export type Fitted = Readonly<{
  from: PluggedIn;
  to: PluggedIn;
  /** Trims that were turned besides, and the notes they come from. */
  moves?: readonly TrimMove[] | undefined;
  trims?: readonly Trim[] | undefined;
}>;

/**
 * What the exchanged parts add to a prediction: the old one and the new one may each lie off its label.
 * @param fitted  what is in, what will be in, dB
 * @param truck   tolerances by part; 0.25 dB where it says nothing
 * @returns  standard uncertainty, dB; 0 where nothing on the path is exchanged
 * @throws   RangeError when the station has no such port
 * @source   JCGM 100:2008, 4.3.7 and (from memory) 5.1.2
 */
export function partsUncertaintyDb(
  station: Station,
  portName: string,
  { from, to }: Fitted,
  truck: Truck | null | undefined,
): number {
  const port = station.ports.find(({ name }) => name === portName);
  if (port === undefined) throw new RangeError(`no port is named "${portName}"`);
  const toleranceDb = new Map(truck?.parts.map((part) => [partKey(part), part.toleranceDb]) ?? []);
  const parts = station.positions.flatMap((position) => {
    const [was, will] = [from[position.name], to[position.name]];
    const times = port.through.filter((name) => name === position.name).length;
    if (was === undefined || will === undefined || was === will) return [];
    return [was, will].map(
      (valueDb) => times * rectangular(toleranceDb.get(keyAt(position, valueDb)) ?? USUAL_PART_TOLERANCE_DB),
    );
  });
  return combined(parts);
}

/** What the next reading may lie off its prediction by, standard uncertainties in dB. */
export type NextReading = Readonly<{
  /** Two readings with one meter: another one at each channel. */
  repeatDb: number;
  /** The exchanged parts, and what neighbours have in common. */
  partsDb: number;
}>;

/**
 * What the same meter's next reading is uncertain by against its prediction: all that both readings have in common falls
 * out, what it repeats to and the exchanged parts stay.
 * @param fitted      what is in, what will be in, dB
 * @param conditions  the meter and the temperature, fit ones
 * @returns  standard uncertainties, dB
 * @throws   RangeError when the station has no such port
 * @source   JCGM 100:2008, 5.2.2 and (from memory) 5.1.2; see `partsUncertaintyDb`
 */
export const nextReading = (
  station: Station,
  portName: string,
  fitted: Fitted,
  conditions: Conditions,
  truck?: Truck | null,
): NextReading => ({
  repeatDb: differenceUncertaintyDb(budgetOf(conditions)),
  partsDb: partsUncertaintyDb(station, portName, fitted, truck),
});

/**
 * The sweep after the parts are fitted, with what it is uncertain by.
 * @param rows        MHz and dBmV at the port as it was read, any order
 * @param conditions  the meter and the temperature
 * @returns  the rows that have a level and lie in the port's design range, rising in MHz
 * @throws   RangeError when the station has no such port or the port has no design
 * @source   contract, section 3, after(f); JCGM 100:2008, 5.1.2 (from memory)
 */
export function predictedSweep(
  rows: readonly LevelRow[],
  station: Station,
  portName: string,
  fitted: Fitted,
  conditions: Conditions,
  truck?: Truck | null,
): PredictedPoint[] {
  const design = station.ports.find(({ name }) => name === portName)?.design;
  if (design === undefined) throw new RangeError(`port "${portName}" has no design`);
  const budget = budgetOf(conditions);
  const { repeatDb, partsDb } = nextReading(station, portName, fitted, conditions, truck);
  const points = predictRows(rows, station, portName, fitted.from, fitted.to)
    .flatMap(({ frequencyMhz, levelDbmv, unlocked }) =>
      frequencyMhz === null || levelDbmv === null || unlocked === true ? [] : [{ frequencyMhz, levelDbmv }],
    )
    .filter(({ frequencyMhz }) => frequencyMhz >= design.lowMhz && frequencyMhz <= design.highMhz)
    .sort((a, b) => a.frequencyMhz - b.frequencyMhz);
  const at = points.map(({ frequencyMhz }) => frequencyMhz);
  const turned = new Float64Array(points.length);
  for (const move of fitted.moves ?? []) {
    const trim = fitted.trims?.find(({ name }) => name === move.name);
    if (trim === undefined) throw new RangeError(`no trim is named "${move.name}"`);
    const effect = trimEffect(trim, design, at);
    for (let i = 0; i < turned.length; i++) turned[i] = (turned[i] ?? 0) + move.byDb * (effect[i] ?? 0);
  }
  const place = trimEffect(
    { name: 'place', kind: 'slope', rangeDb: [0, 0], atMhz: design.highMhz },
    design,
    at,
  );
  return points.map(({ frequencyMhz, levelDbmv }, i) => ({
    frequencyMhz,
    levelDbmv: levelDbmv + (turned[i] ?? 0),
    uDb: combined([channelUncertaintyDb(budget, place[i] ?? 0), partsDb]),
    toNextUDb: combined([repeatDb, partsDb]),
  }));
}
