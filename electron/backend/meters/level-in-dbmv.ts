import { dbmvFromDbm75, dbmvFromDbuv, dbmvFromMillivolt } from '../../../core/units.ts';
import type { LevelUnit } from './profile.ts';

/** A meter's number in dBmV at 75 ohm; null where it stands for no level at all (zero volt). */
export function levelInDbmv(amount: number, unit: LevelUnit): number | null {
  switch (unit) {
    case 'DBMV':
      return amount;
    case 'DBUV':
      return dbmvFromDbuv(amount);
    case 'DBM':
      return dbmvFromDbm75(amount);
    case 'V':
      return amount > 0 ? dbmvFromMillivolt(amount * 1000) : null;
  }
}
