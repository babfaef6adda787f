import {
  type MeterProfile,
  type MeterQuestion,
  type MeterTrace,
  meterUnits,
} from '../../../core/files/meter-profile.ts';

/** A kind of meter as data; `handshake.ts`, `read-levels.ts` and `read-traces.ts` walk it over a `LineLink`. */
export type Profile = MeterProfile;
export type SerialSettings = Profile['serial'];
/** What the lines of one kind of meter look like on the wire. */
export type LineFormat = Profile['lines'];
/** A question, and the grammar of the one line that answers it. */
export type Question = MeterQuestion;
export type Trace = MeterTrace;

/** What a meter may count its levels in. */
export const levelUnits = meterUnits;
export type LevelUnit = (typeof levelUnits)[number];

/** What a code of the meter's error queue means for the person at the meter. */
export const errorHelp = (profile: Profile, errorCode: number): string =>
  profile.errorMeanings.find(({ from, to }) => errorCode >= from && errorCode <= to)?.means ??
  "see the meter's manual for this code, then read again";
