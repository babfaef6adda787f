import type { PluggedIn, Station } from '../files/station.ts';
import type { LevelRow } from '../line/level-row.ts';
import { throughLossDb } from '../plug-ins/through.ts';

/**
 * What a sweep will look like with other plug-ins: after(f) = before(f) + losses now in - losses then in.
 * @param rows      MHz and dBmV at the port, any order
 * @param portName  the port that was read
 * @param from      what was in when it was read: position name to dB; every position of the port's path
 * @param to        what will be in
 * @returns  as many rows in the same order, levels in dBmV; rows without a level or frequency unchanged
 * @throws   RangeError when the station has no such port
 * @source   contract, section 3, "propose, exactly"
 */
export function predictRows(
  rows: readonly LevelRow[],
  station: Station,
  portName: string,
  from: PluggedIn,
  to: PluggedIn,
): LevelRow[] {
  const port = station.ports.find(({ name }) => name === portName);
  if (port === undefined) throw new RangeError(`no port is named "${portName}"`);
  return rows.map((row) => {
    if (row.frequencyMhz === null || row.levelDbmv === null || !(row.frequencyMhz > 0)) return row;
    const beforeDb = throughLossDb(station, port.through, from, row.frequencyMhz);
    const afterDb = throughLossDb(station, port.through, to, row.frequencyMhz);
    return { ...row, levelDbmv: row.levelDbmv + (beforeDb - afterDb) };
  });
}
