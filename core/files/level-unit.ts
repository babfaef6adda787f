import { dbmvFromDbm50, dbmvFromDbm75, dbmvFromDbuv, dbmvFromMillivolt } from '../units.ts';

/**
 * The units in which a file may give levels, as a person names them on the command line. dBm alone is power in 75 ohm;
 * mV and uV are root mean square.
 */
export const writtenLevelUnits = ['dBmV', 'dBuV', 'dBm', 'dBm50', 'mV', 'uV'] as const;
export type LevelUnit = (typeof writtenLevelUnits)[number];

/** The same in words. */
export const levelUnitWords: Readonly<Record<LevelUnit, string>> = {
  dBmV: 'dBmV',
  dBuV: 'dB\u00B5V',
  dBm: 'dBm',
  dBm50: 'dBm at 50 ohm',
  mV: 'mV',
  uV: '\u00B5V',
};

/**
 * Whether a unit is a voltage itself and no logarithm of one.
 * @source   definitions
 */
export const isVoltage = (unit: LevelUnit | null): boolean => unit === 'mV' || unit === 'uV';

const fromVoltage = (millivolt: number): number | null =>
  millivolt > 0 ? dbmvFromMillivolt(millivolt) : null;

/**
 * A level as written to dBmV at 75 ohm.
 * @param written  in the unit given; dBm is power in 75 ohm, dBm50 in 50 ohm and taken for the voltage that it has there
 * @returns  dBmV; null for a voltage of 0 or less, which is no level
 * @source   contract, section 1; core/units.ts: 0 dBmV = 1 mV, 0 dBm in 50 ohm = 46.9897 dBmV
 */
export function dbmvFromWritten(written: number, unit: LevelUnit): number | null {
  switch (unit) {
    case 'dBmV':
      return written;
    case 'dBuV':
      return dbmvFromDbuv(written);
    case 'dBm':
      return dbmvFromDbm75(written);
    case 'dBm50':
      return dbmvFromDbm50(written);
    case 'mV':
      return fromVoltage(written);
    case 'uV':
      return fromVoltage(written / 1000);
  }
}

/** As most files write them, looked at no further. Of a voltage the letters' size counts: MV is another one. */
const usual = new Map<string, LevelUnit>([
  ['dBmV', 'dBmV'],
  ['dBuV', 'dBuV'],
  ['dBm', 'dBm'],
  ['mV', 'mV'],
  ['mv', 'mV'],
  ['uV', 'uV'],
  ['uv', 'uV'],
]);
const spellings = new Map<string, LevelUnit>([
  ['dbmv', 'dBmV'],
  ['dbuv', 'dBuV'],
  ['dbm', 'dBm'],
]);
const inWords = /^(?:(milli)|micro|mikro)volts?$/i;
/** Around the unit itself: a count of parts, and the impedance that all levels here have anyway. */
const around =
  /^(?:tenths?|hundredths?)\s*(?:of\s+)?(?:a\s+)?|\s*[(@/]?\s*75\s*(?:ohms?|\u03A9|\u2126)?\s*\)?$/gi;
/** dBm with the other impedance; a bare 50 behind a blank may be a number of its own. */
const dbmIn50 =
  /^dbm\s*(?:\/\s*50|[(@[]\s*(?:at |in |into )?50|(?:at |in |into )?50(?=\s*-?(?:ohms?|\u03A9|\u2126)))\s*-?(?:ohms?|\u03A9|\u2126)?\s*[)\]]?$/i;
const effective = /\s*\(?rms\)?$/i;

function voltageOf(bare: string): LevelUnit | null {
  const plain = bare.replace(effective, '').replace(/^[\u00B5\u03BC]/, 'u');
  const known = usual.get(plain);
  if (known !== undefined) return isVoltage(known) ? known : null;
  const word = inWords.exec(plain);
  return word === null ? null : word[1] === undefined ? 'uV' : 'mV';
}

/**
 * A unit as written in a cell.
 * @returns  the unit of a level, or null when it is none; MV and UV, all in capitals, are none
 * @source   contract, section 1; that letters' size tells milli from mega: SI Brochure, 9th edition, table 7 (from memory)
 */
export function levelUnitOf(written: string): LevelUnit | null {
  const known = usual.get(written);
  if (known !== undefined) return known;
  if (dbmIn50.test(written)) return 'dBm50';
  const bare = written.replace(around, '');
  const letters = bare
    .toLowerCase()
    .replace(/[\u00B5\u03BC]/g, 'u')
    .replace(/\s/g, '');
  return spellings.get(letters) ?? voltageOf(bare);
}
