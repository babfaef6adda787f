import type { MeterIdentity } from '../../../core/bridge/records.ts';
import { askMeter, type Fields, type Talk, tellMeter } from './ask-meter.ts';
import { drainErrors, explained } from './error-queue.ts';
import { MeterFault } from './meter-shop.ts';
import { pause } from './patience.ts';
import { type LevelUnit, levelUnits, type Profile } from './profile.ts';

/** What the meter told about itself when it was connected. */
export type Greeting = Readonly<{ identity: MeterIdentity; unit: LevelUnit }>;

/** Brings a meter to a known state, asks who it is, and agrees on the unit. Throws `MeterFault`. */
export async function greet(talk: Talk, profile: Profile): Promise<Greeting> {
  await pause(profile.settleMs, talk.signal);
  for (const line of profile.wake) await tellMeter(talk, line);
  const identity = identityOf(await identify(talk, profile));
  try {
    await tellMeter(talk, profile.unit.wish);
    const { unit: named = '' } = await askMeter(talk, profile.unit.confirm);
    const unit = levelUnits.find((known) => known === named.toUpperCase());
    if (unit === undefined) throw unknownUnit(talk.where, named);
    // A meter that can't count in dBmV has complained about the wish; that is settled by what it answered.
    await drainErrors(talk, profile);
    return { identity, unit };
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
