import type { Input, Output } from '../../core/bridge/contract.ts';
import type { LinkHealth } from '../../core/bridge/meter-calls.ts';
import { counted } from '../format.ts';
import { attempt, type Context } from './context.ts';
import type { Notice } from './ui-slice.ts';

/** What a sweep's bytes say of its readings. */
function bytesNotice({ kept, same, byteCount, readings }: Output<'sweeps.reread'>): Notice {
  if (!kept)
    return {
      tone: 'news',
      text: 'No bytes are kept with this sweep.',
      help: 'It came from a file, or was read before bytes were kept.',
    };
  const bytes = `${counted(byteCount, 'byte', 'bytes')} of what was asked and answered`;
  return same
    ? {
        tone: 'news',
        text: `Its bytes say the same, ${counted(readings.length, 'level', 'levels')}.`,
        help: `Read again by the profile that is kept with it, from ${bytes}.`,
      }
    : {
        tone: 'problem',
        text: 'Its bytes say other levels than the sweep.',
        help: `Read again from ${bytes}. Look the records through in the settings, and do not rest a decision on this sweep.`,
      };
}

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
    /** Null where none was used yet, and while the host does not answer. */
    last: async (): Promise<Output<'meters.last'>['last']> => {
      try {
        return (await client.call('meters.last', {})).last;
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
    /** Every profile, which can be chosen from then on, and the files that are none. */
    listProfiles: async (): Promise<Output<'profiles.list'> | null> => {
      const listed = await attempt(context, 'profiles', 'The profiles were not listed.', () =>
        client.call('profiles.list', {}),
      );
      const { link, linkBecame } = store.getState();
      if (listed !== null && link.at === 'open') linkBecame({ ...link, profiles: listed.profiles });
      return listed;
    },
    readProfile: (name: string) =>
      attempt(context, 'profile', 'That profile could not be read.', () =>
        client.call('profiles.read', { name }),
      ),
    /** @returns  the profile's name, or null after a fault */
    saveProfile: async (text: string): Promise<string | null> => {
      const saved = await attempt(context, 'profile', 'The profile was not kept.', () =>
        client.call('profiles.save', { text }),
      );
      return saved === null ? null : saved.name;
    },
    /** Reads a sweep again from the bytes that are kept with it, and says what they say. */
    holdAgainstBytes: async (sweepId: string): Promise<void> => {
      const found = await attempt(context, 'reread', 'The sweep was not read again.', () =>
        client.call('sweeps.reread', { sweepId }),
      );
      if (found !== null) store.getState().noticed(bytesNotice(found));
    },
    checkProfile: (check: Input<'profiles.check'>) =>
      attempt(context, 'check-profile', 'The check broke off.', () => client.call('profiles.check', check)),
  };
}
