import type { Input } from '../../core/bridge/contract.ts';
import { attempt, type Context, helpOf } from './context.ts';

/** The watch that was asked for, else the running one of a station, else its newest, with all its rounds. */
export async function openWatch(
  { client, store }: Context,
  stationId: string,
  watchId: string | null = null,
): Promise<void> {
  try {
    const { watches } = await client.call('watch.list', { stationId });
    const shown =
      watches.find((watch) => watch.watchId === watchId) ??
      watches.find(({ state }) => state === 'running') ??
      watches[0];
    store
      .getState()
      .watchArrived(
        stationId,
        shown === undefined ? null : await client.call('watch.open', { watchId: shown.watchId }),
        watches,
      );
  } catch (fault) {
    store
      .getState()
      .noticed({ tone: 'problem', text: 'The watch could not be opened.', help: helpOf(fault) });
  }
}

export async function startWatch(context: Context, start: Input<'watch.start'>): Promise<void> {
  const begun = await attempt(context, 'watch', 'The watch was not started.', () =>
    context.client.call('watch.start', start),
  );
  if (begun !== null) await openWatch(context, start.stationId);
}

export async function stopWatch(context: Context, watchId: string): Promise<void> {
  const stopped = await attempt(context, 'watch', 'The watch did not stop.', () =>
    context.client.call('watch.stop', { watchId }),
  );
  if (stopped !== null) context.store.getState().watchChanged(stopped);
}

export async function noteTemperature(
  context: Context,
  stationId: string,
  watchId: string,
  ambientC: number,
): Promise<void> {
  const noted = await attempt(context, 'temperature', 'The temperature was not noted.', () =>
    context.client.call('watch.temperature', { watchId, ambientC }),
  );
  if (noted !== null) await openWatch(context, stationId, watchId);
}
