import { dbmvFromDbm75, dbmvFromDbuv } from '../units.ts';

/** The units in which a file may give levels of a 75 ohm network. */
export type LevelUnit = 'dBmV' | 'dBuV' | 'dBm';

/**
 * A level as written to dBmV at 75 ohm.
 * @param written  in the unit given; dBm is power in 75 ohm
 * @returns  dBmV
 * @source   contract, section 1; core/units.ts
 */
export function dbmvFromWritten(written: number, unit: LevelUnit): number {
  switch (unit) {
    case 'dBmV':
      return written;
    case 'dBuV':
      return dbmvFromDbuv(written);
    case 'dBm':
      return dbmvFromDbm75(written);
  }
}

const spellings = new Map<string, LevelUnit>([
  ['dbmv', 'dBmV'],
  ['dbuv', 'dBuV'],
  ['dbm', 'dBm'],
]);
/** As most files write them, looked at no further. */
const usual = new Map<string, LevelUnit>([...spellings.values()].map((unit) => [unit, unit]));
/** Around the unit itself: a count of parts, and the impedance that all levels here have anyway. */
const around =
  /^(?:tenths?|hundredths?)\s*(?:of\s+)?(?:a\s+)?|\s*[(@]?\s*75\s*(?:ohms?|\u03A9|\u2126)?\s*\)?$/gi;

/**
 * A unit as written in a cell.
 * @returns  the unit of a level, or null when it is none
 * @source   contract, section 1
 */
export const levelUnitOf = (written: string): LevelUnit | null =>
  usual.get(written) ??
  spellings.get(
    written
      .replace(around, '')
      .toLowerCase()
      .replace(/[\u00B5\u03BC]/g, 'u')
      .replace(/\s/g, ''),
  ) ??
  null;
