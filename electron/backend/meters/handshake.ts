import type { MeterIdentity } from '../../../core/bridge/records.ts';
import { askMeter, type Fields, rest, type Talk, tellMeter } from './ask-meter.ts';
import { drainErrors, explained } from './error-queue.ts';
import { MeterFault } from './meter-shop.ts';
import { type LevelUnit, levelUnits, type Profile } from './profile.ts';

/** What the meter told about itself when it was connected. */
export type Greeting = Readonly<{ identity: MeterIdentity; unit: LevelUnit }>;

/** Brings a meter to a known state, asks who it is, and agrees on the unit. Throws `MeterFault`. */
export async function greet(talk: Talk, profile: Profile): Promise<Greeting> {
  await rest(talk, profile.settleMs);
  for (const line of profile.wake) await tellMeter(talk, line);
  const named = identityOf(await identify(talk, profile));
  const calibratedOn = await calibrated(talk, profile);
  const identity = calibratedOn === null ? named : { ...named, calibratedOn };
  return { identity, unit: await unitOf(talk, profile) };
}

/** The day of the last calibration; null where the meter has none to tell. */
async function calibrated(talk: Talk, profile: Profile): Promise<string | null> {
  if (profile.calibration === null) return null;
  const { calibratedOn = '' } = await askMeter(talk, profile.calibration);
  return calibratedOn === '' ? null : calibratedOn;
}

async function unitOf(talk: Talk, profile: Profile): Promise<LevelUnit> {
  if ('always' in profile.unit) return profile.unit.always;
  try {
    await tellMeter(talk, profile.unit.wish);
    const { unit: named = '' } = await askMeter(talk, profile.unit.confirm);
    // Every level hangs on this one word, and DBM is a DBMV that lost a letter on the way: it must say so twice.
    await askMeter(talk, profile.unit.confirm, (fields) => fields.unit === named);
    const unit = levelUnits.find((known) => known === named.toUpperCase());
    if (unit === undefined) throw unknownUnit(talk.where, named);
    // A meter that can't count in dBmV has complained about the wish; that is settled by what it answered.
    await drainErrors(talk, profile);
    return unit;
  } catch (fault) {
    throw await explained(talk, profile, 'asking for its unit', fault);
  }
}

/** The first bytes after opening can be lost in a waking meter, so silence is asked once more. */
async function identify(talk: Talk, profile: Profile): Promise<Fields> {
  try {
    return await askMeter(talk, profile.identify);
  } catch (fault) {
    if (!(fault instanceof MeterFault) || fault.code !== 'silent') throw fault;
    return await askMeter(talk, profile.identify);
  }
}

const identityOf = (fields: Fields): MeterIdentity => ({
  maker: fields.maker?.trim() ?? '',
  model: fields.model?.trim() ?? '',
  serialNumber: fields.serialNumber?.trim() ?? '',
  firmware: fields.firmware?.trim() ?? '',
});

const unknownUnit = (where: string, named: string) =>
  new MeterFault(
    'not-understood',
    where,
    `the meter counts its levels in "${named}", which can't be converted; set it to one of ${levelUnits.join(', ')}`,
  );
