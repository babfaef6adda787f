import type { Input } from '../../core/bridge/contract.ts';
import type { LinkHealth } from '../../core/bridge/meter-calls.ts';
import { attempt, type Context, helpOf } from './context.ts';

/** What the meter's screen asks for beside choosing one: how its link is, its sticker, and the profiles. */
export function createMeterDesk(context: Context) {
  const { client, store } = context;
  return {
    /** Null while the host does not answer; the next look tells. */
    health: async (): Promise<LinkHealth | null> => {
      try {
        return await client.call('meters.health', {});
      } catch {
        return null;
      }
    },
    noteCalibration: async (dueOn: string | null): Promise<void> => {
      const meter = await attempt(context, 'calibration', 'The day was not kept.', () =>
        client.call('meters.calibration', { dueOn }),
      );
      if (meter !== null) store.getState().meterConnected(meter);
    },
    listProfiles: () =>
      attempt(context, 'profiles', 'The profiles were not listed.', () => client.call('profiles.list', {})),
    readProfile: (name: string) =>
      attempt(context, 'profile', 'That profile could not be read.', () =>
        client.call('profiles.read', { name }),
      ),
    /** @returns  the profile's name, or null after a fault */
    saveProfile: async (text: string): Promise<string | null> => {
      const saved = await attempt(context, 'profile', 'The profile was not kept.', () =>
        client.call('profiles.save', { text }),
      );
      if (saved === null) return null;
      const { link, linkBecame } = store.getState();
      try {
        const { profiles } = await client.call('profiles.list', {});
        if (link.at === 'open') linkBecame({ ...link, profiles });
      } catch (fault) {
        store.getState().noticed({ tone: 'problem', text: 'It is kept.', help: helpOf(fault) });
      }
      return saved.name;
    },
    checkProfile: (check: Input<'profiles.check'>) =>
      attempt(context, 'check-profile', 'The check broke off.', () => client.call('profiles.check', check)),
  };
}
