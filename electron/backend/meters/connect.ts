import { Refused } from '../../../core/bridge/refused.ts';
import { refuse } from '../../../core/result.ts';
import { placesOf } from './adapters.ts';
import { checkProfile, type Exchange } from './check-profile.ts';
import { greet } from './handshake.ts';
import { knownProfiles } from './known-profiles.ts';
import type { LineLink } from './line-link.ts';
import { createLinkMonitor } from './link-health.ts';
import type { LinkNews } from './link-news.ts';
import { createMeter, type MeterParts } from './meter.ts';
import { type Meter, MeterFault, type MeterShop } from './meter-shop.ts';
import { createNewPorts, type NewPorts } from './new-ports.ts';
import { connectPatiently } from './patient-connect.ts';
import { findPorts } from './ports.ts';
import type { Profile } from './profile.ts';
import type { ProfileFolder } from './profile-folder.ts';
import { scpi } from './profiles/scpi.ts';
import { openReplayLink } from './replay-link.ts';
import { openSerialLink } from './serial-link.ts';
import { openSimulatedLink } from './simulated/link.ts';
import { createSimulatedPlace, type SimulatedPlace } from './simulated/source.ts';
import { createSteadyMeter, type Recovery, usualRecovery } from './steady-meter.ts';

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
  find?: MeterShop['find'];
  /** How a meter is looked for that is lost in the middle of a sweep, or whose port is new; null: not at all. */
  recovery?: Recovery | null;
  /** Which ports came just now. */
  newPorts?: NewPorts;
  /** Told when it is looked for, when it is back, and when a new port is waited for. */
  news?: (news: LinkNews) => void;
  /** Where the simulated meter's probe sits at first. */
  createPlace?: () => SimulatedPlace;
}>;

/** The meters of this machine: every one of them, simulated or not, behind the same link, grammar and profile. */
export function createMeterShop(parts: ShopParts): MeterShop {
  const shipped = parts.profiles ?? knownProfiles;
  const profiles = () => [...shipped, ...(parts.folder?.read().profiles ?? [])];
  const monitor = createLinkMonitor(() => performance.now());
  const openSerial: OpenSerial = async (path, profile, signal) => {
    try {
      return await (parts.openSerial ?? openLink)(path, profile, signal);
    } catch (fault) {
      if (fault instanceof MeterFault) monitor.broke(fault.help);
      throw fault;
    }
  };
  const newPorts = parts.newPorts ?? createNewPorts(() => Date.now());
  const find: MeterShop['find'] = async () => {
    const found = await (parts.find ?? (() => findPorts()))();
    newPorts.listed(found.ports.map(({ path }) => path));
    return found;
  };
  const openSimulated = parts.openSimulated ?? openSimulatedLink;
  const createPlace = parts.createPlace ?? (() => createSimulatedPlace({ now: parts.now }));
  const recovery = parts.recovery === undefined ? usualRecovery : parts.recovery;
  const adapterAt = async (path: string) =>
    (await find()).ports.find((port) => port.path === path)?.adapter ?? null;
  /** Greets the meter behind a link; a link whose meter does not answer is closed again. */
  const session = async (
    make: Pick<MeterParts, 'choice' | 'where' | 'profile' | 'moveProbe'>,
    link: LineLink,
    signal: AbortSignal,
  ): Promise<Meter> => {
    try {
      link.listen(monitor);
      const greeting = await greet({ link, where: make.where, signal }, make.profile);
      return createMeter({ ...make, link, greeting, now: parts.now, monitor });
    } catch (fault) {
      await link.close();
      throw fault;
    }
  };
  const simulatedProfile = shipped.find(({ name }) => name === scpi.name) ?? scpi;

  return {
    profiles: () => profiles().map(({ name, title }) => ({ name, title })),
    find,
    health: () => monitor.health(),
    async check(path, profile, atMhz, signal) {
      monitor.began(path);
      const link = await openSerial(path, profile, signal);
      link.listen(monitor);
      const exchanges: Exchange[] = [];
      try {
        for await (const exchange of checkProfile({ link, where: path, signal }, profile, atMhz))
          exchanges.push(exchange);
        return exchanges;
      } finally {
        await link.close();
      }
    },
    async connect(choice, signal) {
      monitor.began(choice.kind === 'simulated' ? 'simulated meter' : choice.path);
      if (choice.kind === 'simulated') {
        const place = createPlace();
        const link = openSimulated(place, simulatedProfile);
        const make = {
          choice,
          where: 'simulated meter',
          profile: simulatedProfile,
          moveProbe: place.moveProbe,
        };
        return await session(make, link, signal);
      }
      const profile = profileNamed(profiles(), choice.profile);
      const open = async (path: string, stop: AbortSignal) =>
        await session(
          { choice, where: path, profile, moveProbe: () => undefined },
          await openSerial(path, profile, stop),
          stop,
        );
      if (recovery === null) return await open(choice.path, signal);
      const news = parts.news ? { news: parts.news } : {};
      const first =
        profile.link === 'file'
          ? await open(choice.path, signal)
          : await connectPatiently(
              { path: choice.path, open: (stop) => open(choice.path, stop), newPorts, recovery, ...news },
              signal,
            );
      // Asked in the background, and never again in a sweep: looking for ports slows them.
      const adapter = profile.link === 'file' ? Promise.resolve(null) : adapterAt(choice.path);
      // Its name may belong to another by now, so the adapter says where; each place of it in turn.
      let tries = 0;
      const reconnect = async (stop: AbortSignal) => {
        const named = await adapter;
        const places = named === null ? [choice.path] : placesOf(named, choice.path, await find());
        const place = places[tries % Math.max(1, places.length)];
        tries += 1;
        if (place === undefined) throw notPluggedIn(choice.path);
        return await open(place, stop);
      };
      const steady = createSteadyMeter({ first, reconnect, recovery, ...news });
      void steady.lost.then(() => newPorts.lost(choice.path));
      return steady;
    },
  };
}

const notPluggedIn = (path: string) =>
  new MeterFault('no-such-port', path, 'its adapter is not plugged in; plug it in again');

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
