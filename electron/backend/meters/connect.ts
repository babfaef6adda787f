import { Refused } from '../../../core/bridge/refused.ts';
import { refuse } from '../../../core/result.ts';
import { greet } from './handshake.ts';
import { knownProfiles } from './known-profiles.ts';
import type { LineLink } from './line-link.ts';
import { createMeter } from './meter.ts';
import type { MeterShop } from './meter-shop.ts';
import { findPorts } from './ports.ts';
import type { Profile } from './profile.ts';
import type { ProfileFolder } from './profile-folder.ts';
import { scpi } from './profiles/scpi.ts';
import { openReplayLink } from './replay-link.ts';
import { openSerialLink } from './serial-link.ts';
import { openSimulatedLink } from './simulated/link.ts';
import { createSimulatedPlace, type SimulatedPlace } from './simulated/source.ts';

/** Opens the wire of a serial meter. */
export type OpenSerial = (path: string, profile: Profile, signal: AbortSignal) => Promise<LineLink>;

/** What a shop is made of; all but the clock have their usual make. */
export type ShopParts = Readonly<{
  now: () => Date;
  profiles?: readonly Profile[];
  /** Where a shop keeps profiles of its own. */
  folder?: ProfileFolder;
  openSerial?: OpenSerial;
  /** Opens the meter inside this process. It plays `place`, wherever the probe has been moved. */
  openSimulated?: (place: SimulatedPlace, profile: Profile) => LineLink;
  /** Where the simulated meter's probe sits at first. */
  createPlace?: () => SimulatedPlace;
}>;

/** The meters of this machine: every one of them, simulated or not, behind the same link, grammar and profile. */
export function createMeterShop(parts: ShopParts): MeterShop {
  const shipped = parts.profiles ?? knownProfiles;
  const profiles = () => [...shipped, ...(parts.folder?.read().profiles ?? [])];
  const openSerial = parts.openSerial ?? openLink;
  const openSimulated = parts.openSimulated ?? openSimulatedLink;
  const createPlace = parts.createPlace ?? (() => createSimulatedPlace({ now: parts.now }));
  const simulatedProfile = shipped.find(({ name }) => name === scpi.name) ?? scpi;

  return {
    profiles: () => profiles().map(({ name, title }) => ({ name, title })),
    find: () => findPorts(),
    async connect(choice, signal) {
      const place = createPlace();
      const simulated = choice.kind === 'simulated';
      const where = simulated ? 'simulated meter' : choice.path;
      const profile = simulated ? simulatedProfile : profileNamed(profiles(), choice.profile);
      const link = simulated ? openSimulated(place, profile) : await openSerial(choice.path, profile, signal);
      try {
        const greeting = await greet({ link, where, signal }, profile);
        const moveProbe = simulated ? place.moveProbe : () => undefined;
        return createMeter({ choice, where, link, profile, greeting, now: parts.now, moveProbe });
      } catch (fault) {
        await link.close();
        throw fault;
      }
    },
  };
}

/** A serial port, or the file that a profile of that kind names in its place. */
export const openLink: OpenSerial = (path, profile, signal) =>
  profile.link === 'file' ? openReplayLink(path, profile) : openSerialLink(path, profile, signal);

function profileNamed(profiles: readonly Profile[], name: string): Profile {
  const profile = profiles.find((known) => known.name === name);
  if (profile !== undefined) return profile;
  const names = profiles.map((known) => known.name).join(', ');
  throw new Refused(
    refuse('no-such-profile', `profile "${name}"`, `no meter has this profile; there is ${names}`),
  );
}
