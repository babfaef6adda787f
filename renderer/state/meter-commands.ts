import type { MeterChoice } from '../../core/bridge/records.ts';
import { type Context, helpOf } from './context.ts';

export async function findPorts({ client, store }: Context): Promise<void> {
  store.getState().portsLooking();
  try {
    const { ports, problem } = await client.call('meters.find', {});
    store.getState().portsFound(ports, problem);
  } catch (fault) {
    store.getState().portsFound([], helpOf(fault));
  }
}

/** The ports once more, without a word while they are looked for: an adapter may have been plugged in meanwhile. */
export async function renewPorts({ client, store }: Context): Promise<void> {
  try {
    const { ports, problem } = await client.call('meters.find', {});
    const shown = store.getState().ports;
    const found = { at: 'found', ports, problem } as const;
    if (shown.at !== 'found' || JSON.stringify(shown) !== JSON.stringify(found))
      store.getState().portsFound(ports, problem);
  } catch {
    // What is shown stays; whoever wants to know why looks again by hand.
  }
}

/** Connects a meter, and can be told to give up: a port that was plugged in just now is tried for half a minute. */
export function createConnecting({ client, store }: Context) {
  let stop: AbortController | null = null;
  return {
    /** @returns  true when the meter has told its identity */
    async connectMeter(choice: MeterChoice): Promise<boolean> {
      const mine = new AbortController();
      stop = mine;
      store.getState().meterConnecting(choice);
      try {
        store.getState().meterConnected(await client.call('meters.connect', choice, mine.signal));
        return true;
      } catch (fault) {
        if (mine.signal.aborted) store.getState().meterForgone();
        else store.getState().meterRefused(helpOf(fault));
        return false;
      } finally {
        if (stop === mine) stop = null;
      }
    },
    giveUpMeter(): void {
      stop?.abort();
    },
  };
}

export async function putMeterAway({ client, store }: Context): Promise<void> {
  try {
    await client.call('meters.disconnect', {});
    store.getState().meterGone(null);
  } catch (fault) {
    store.getState().noticed({ tone: 'problem', text: 'The meter was not let go.', help: helpOf(fault) });
  }
}
