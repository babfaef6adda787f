import { type Context, helpOf } from './context.ts';

/** The station and all that feed it, as they stand now. */
export async function readCascade({ client, store }: Context, stationId: string): Promise<void> {
  try {
    const { links, unknownId } = await client.call('cascade.read', { stationId });
    store.getState().cascadeArrived(stationId, links, unknownId);
  } catch (fault) {
    store.getState().cascadeFailed(stationId, helpOf(fault));
  }
}
