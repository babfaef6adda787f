import type { Fields } from './ask-meter.ts';
import { errorIn } from './error-queue.ts';
import { levelInDbmv } from './level-in-dbmv.ts';
import type { LevelUnit, Profile } from './profile.ts';

/** A meter's number as a level at its test point: dBmV, or null where it stands for no level. */
export function levelOf(profile: Profile, unit: LevelUnit, amount: number): number | null {
  if (!(Math.abs(amount) < profile.limits.noLevelFrom)) return null;
  const levelDbmv = levelInDbmv(amount, unit, profile.impedanceOhm);
  return levelDbmv === null ? null : levelDbmv + profile.addDb;
}

/** Whether a level can be one of this meter; no level can. */
export const isPossible = ({ limits }: Profile, levelDbmv: number | null): boolean =>
  levelDbmv === null || (levelDbmv >= limits.lowestDbmv && levelDbmv <= limits.highestDbmv);

/** The level in an answer. Where the meter says that it has none, the part is empty. */
export function levelIn(profile: Profile, unit: LevelUnit, fields: Fields): number | null {
  const said = fields.level ?? '';
  return said === '' ? null : levelOf(profile, unitIn(unit, fields), Number(said));
}

/** An answer that names a unit of its own counts in that one: a meter that started anew may be back in another. */
export function unitIn(agreed: LevelUnit, fields: Fields): LevelUnit {
  const named = (fields.unit ?? '').toUpperCase();
  return named === 'DBMV' || named === 'DBUV' || named === 'DBM' || named === 'V' ? named : agreed;
}

/** How far from where it was asked to be the meter says it is, in Hz; 0 where it says nothing. */
function awayHz(fields: Fields, hz: number): number {
  if (fields.hz !== undefined) return Math.abs(Number(fields.hz) - hz);
  if (fields.mhz !== undefined) return Math.abs(Number(fields.mhz) * 1e6 - hz);
  return 0;
}

/** An answer for another frequency, or a level that no meter reads, makes sense only where the meter reports an error. */
export const makesSenseAt =
  (profile: Profile, unit: LevelUnit, hz: number) =>
  (fields: Fields): boolean =>
    errorIn(fields) !== null ||
    (awayHz(fields, hz) <= profile.limits.tuneWithinMhz * 1e6 + 0.5 &&
      isPossible(profile, levelIn(profile, unit, fields)));
