import type { Client } from '../../core/bridge/client.ts';
import { ClientFault } from '../../core/bridge/client-fault.ts';
import type { LiveFeed } from './live-feed.ts';
import type { Store } from './store.ts';

/** What every command of the page needs: who is asked, and where the answer goes. */
export type Context = Readonly<{
  client: Pick<Client, 'call' | 'on'>;
  store: Store;
  feed: LiveFeed;
}>;

/** A fault as one line that a person can use. */
export const helpOf = (fault: unknown): string => {
  if (fault instanceof ClientFault)
    return fault.code === 'refused' ? `${fault.where}: ${fault.help}` : fault.help;
  return fault instanceof Error ? fault.message : String(fault);
};

/**
 * Does what the person asked for, with its button waiting meanwhile; a fault becomes the notice, and the page goes on.
 * @returns  the answer, or null after a fault
 */
export async function attempt<T>(
  { store }: Context,
  what: string,
  text: string,
  act: () => Promise<T>,
): Promise<T | null> {
  store.getState().busyWith(what);
  store.getState().noticed(null);
  try {
    return await act();
  } catch (fault) {
    if (!(fault instanceof ClientFault && fault.code === 'cancelled'))
      store.getState().noticed({ tone: 'problem', text, help: helpOf(fault) });
    return null;
  } finally {
    if (store.getState().busy === what) store.getState().busyWith(null);
  }
}
