import { type Context, helpOf } from './context.ts';
import type { LevelFeed } from './level-feed.ts';
import type { LivePlan } from './live-slice.ts';
import { openVisitId } from './visit-commands.ts';

/** Watches one level from now on; one that is running is stopped first. @returns  true when it runs */
export async function startLive(context: Context, levels: LevelFeed, plan: LivePlan): Promise<boolean> {
  const { client, store } = context;
  await stopLive(context, levels);
  levels.expect();
  store.getState().noticed(null);
  store.getState().liveStarting(plan);
  try {
    const run = await client.call('live.start', { ...plan, visitId: openVisitId(context) });
    const { live } = store.getState();
    if (live.at !== 'starting' || live.plan !== plan) {
      // Whoever asked has gone on meanwhile.
      await client.call('live.stop', { liveId: run.liveId });
      return false;
    }
    levels.bind(run.liveId);
    store.getState().liveStarted(run);
    return true;
  } catch (fault) {
    store.getState().liveEnded(null, helpOf(fault));
    return false;
  }
}

export async function stopLive({ client, store }: Context, levels: LevelFeed): Promise<void> {
  const { live, liveEnded } = store.getState();
  if (live.at === 'ended') return;
  if (live.at !== 'running') return liveEnded(null, null);
  liveEnded(live.run.liveId, null);
  levels.rest();
  try {
    await client.call('live.stop', { liveId: live.run.liveId });
  } catch (fault) {
    store.getState().noticed({ tone: 'problem', text: 'The reading did not stop.', help: helpOf(fault) });
  }
}

/** After a reload: the level that is still watched, with what it read until now. */
export async function findLive({ client, store }: Context, levels: LevelFeed): Promise<void> {
  const { live } = await client.call('live.current', {});
  if (live === null) return;
  const about = await client.call('live.open', { liveId: live.liveId, fromSeq: 0 });
  if (!about.running) return;
  levels.seed(live, about.readings);
  store.getState().liveFound(live);
}
