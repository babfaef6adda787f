import type { Input, Output } from '../../../core/bridge/contract.ts';
import { Refused } from '../../../core/bridge/refused.ts';
import { readMeterProfile } from '../../../core/files/meter-profile.ts';
import { knownProfiles } from '../meters/known-profiles.ts';
import { MeterFault, type MeterShop } from '../meters/meter-shop.ts';
import type { ProfileFolder } from '../meters/profile-folder.ts';
import type { Meters } from './meters.ts';
import { refused } from './service-parts.ts';

export type Profiles = Readonly<{
  list(): Output<'profiles.list'>;
  /** @throws Refused when there is none of this name */
  read(input: Input<'profiles.read'>): Output<'profiles.read'>;
  save(input: Input<'profiles.save'>): Output<'profiles.save'>;
  check(input: Input<'profiles.check'>, signal: AbortSignal): Promise<Output<'profiles.check'>>;
}>;

/** The profiles that are shipped and those of a shop's own, and the trial of one that may not be kept yet. */
export function createProfiles(shop: MeterShop, folder: ProfileFolder, meters: Meters): Profiles {
  return {
    list: () => ({
      profiles: shop.profiles().map(({ name, title }) => ({ name, title })),
      broken: folder.read().broken.map((one) => ({ ...one })),
      folder: folder.path,
    }),
    read({ name }) {
      const known = knownProfiles.find((one) => one.name === name);
      const profile = known ?? folder.read().profiles.find((one) => one.name === name);
      if (profile === undefined)
        throw refused('no-such-profile', `profile "${name}"`, 'it is gone; look again which there are');
      return { text: `${JSON.stringify(profile, null, 2)}\n`, shipped: known !== undefined };
    },
    save({ text }) {
      const saved = folder.save(text);
      if (!saved.ok) throw new Refused(saved);
      return { name: saved.value.name };
    },
    async check({ path, text, atMhz }, signal) {
      const profile = readMeterProfile(text, 'profile');
      if (!profile.ok) throw new Refused(profile);
      // Two can't have one port; whoever tries a profile connects anew after it.
      await meters.disconnect();
      try {
        const exchanges = await shop.check(path, profile.value, atMhz, signal);
        return {
          exchanges: exchanges.map((exchange) => ({ ...exchange, understood: said(exchange.understood) })),
          problemCount: exchanges.filter(({ problem }) => problem !== null).length,
        };
      } catch (fault) {
        if (!(fault instanceof MeterFault)) throw fault;
        throw refused(fault.code, fault.where, fault.help);
      }
    },
  };
}

/** The parts that said something. */
function said(fields: Readonly<Record<string, string | undefined>> | null): Record<string, string> | null {
  if (fields === null) return null;
  const parts: Record<string, string> = {};
  for (const [name, value] of Object.entries(fields)) if (value !== undefined) parts[name] = value;
  return parts;
}
