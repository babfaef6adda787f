import { dbmvFromDbm50, dbmvFromDbm75, dbmvFromDbuv, dbmvFromMillivolt } from '../../../core/units.ts';
import type { LevelUnit } from './profile.ts';

/** A meter's number in dBmV, dBm taken in the ohms named; null where it stands for no level at all (zero volt). */
export function levelInDbmv(amount: number, unit: LevelUnit, impedanceOhm: 75 | 50 = 75): number | null {
  switch (unit) {
    case 'DBMV':
      return amount;
    case 'DBUV':
      return dbmvFromDbuv(amount);
    case 'DBM':
      return impedanceOhm === 75 ? dbmvFromDbm75(amount) : dbmvFromDbm50(amount);
    case 'V':
      return amount > 0 ? dbmvFromMillivolt(amount * 1000) : null;
  }
}
