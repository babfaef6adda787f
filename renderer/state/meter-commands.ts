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

/** @returns  true when the meter has told its identity */
export async function connectMeter({ client, store }: Context, choice: MeterChoice): Promise<boolean> {
  store.getState().meterConnecting(choice);
  try {
    store.getState().meterConnected(await client.call('meters.connect', choice));
    return true;
  } catch (fault) {
    store.getState().meterRefused(helpOf(fault));
    return false;
  }
}

export async function putMeterAway({ client, store }: Context): Promise<void> {
  try {
    await client.call('meters.disconnect', {});
    store.getState().meterGone(null);
  } catch (fault) {
    store.getState().noticed({ tone: 'problem', text: 'The meter was not let go.', help: helpOf(fault) });
  }
}
