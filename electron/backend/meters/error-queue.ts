import { askMeter, type Fields, type Talk } from './ask-meter.ts';
import { MeterFault } from './meter-shop.ts';
import { errorHelp, type Profile } from './profile.ts';

export type MeterError = Readonly<{ errorCode: number; errorText: string }>;

/** The entry in an answer's parts `errorCode` and `errorText`; null when it says that there is none, or nothing of it. */
export function errorIn(fields: Fields): MeterError | null {
  const errorCode = Number(fields.errorCode ?? 0);
  return errorCode === 0 ? null : { errorCode, errorText: fields.errorText ?? '' };
}

/** Empties the meter's error queue, oldest first. A meter without one has nothing more to say. */
export async function drainErrors(talk: Talk, profile: Profile): Promise<readonly MeterError[]> {
  const errors: MeterError[] = [];
  if (profile.errorQueue === null) return errors;
  const { next, depth } = profile.errorQueue;
  while (errors.length < depth) {
    const error = errorIn(await askMeter(talk, next));
    if (error === null) return errors;
    errors.push(error);
  }
  const help = `the meter's error queue has no end (${depth} read); switch the meter off and on`;
  throw new MeterFault('meter-error', talk.where, help);
}

/** What the meter itself says is wrong, with its meaning. `during` says what we were doing. */
export const meterError = (talk: Talk, profile: Profile, during: string, error: MeterError): MeterFault =>
  new MeterFault(
    'meter-error',
    talk.where,
    `${during}: the meter reports ${error.errorCode} "${error.errorText}"; ${errorHelp(profile, error.errorCode)}`,
  );

/**
 * Silence and nonsense often have a reason that the meter knows: a refused command leaves no answer, but an entry in
 * the error queue. Gives the fault that says most; `fault` itself where there is nothing more to learn.
 */
export async function explained(
  talk: Talk,
  profile: Profile,
  during: string,
  fault: unknown,
): Promise<unknown> {
  if (!(fault instanceof MeterFault) || (fault.code !== 'silent' && fault.code !== 'not-understood')) {
    return fault;
  }
  try {
    const [oldest] = await drainErrors(talk, profile);
    return oldest === undefined ? fault : meterError(talk, profile, during, oldest);
  } catch (newer) {
    // A link that went, or a stop, is the newer news; a meter that stays silent is not.
    return newer instanceof MeterFault && newer.code !== 'lost' ? fault : newer;
  }
}
