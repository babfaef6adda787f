import { createLiveFeed } from '../../renderer/state/live-feed.ts';
import { createWorkbenchStore } from '../../renderer/state/store.ts';
import type { Bench } from '../../renderer/state/use-workbench.ts';
import { createWorkbench } from '../../renderer/state/workbench.ts';
import { type Script, scriptedClient } from './scripted-client.ts';

type Levels = Parameters<typeof createWorkbench>[3];
export type Given = Readonly<{ now?: string; levels?: Levels }>;

/** A workbench that listens, as the page's does, to a host of which it hears nothing but the script. No frame is ever drawn. */
export function benchOver(script: Script, { now = '2026-11-25T10:00:00.000Z', levels }: Given = {}) {
  const scripted = scriptedClient(script);
  const store = createWorkbenchStore();
  const feed = createLiveFeed(() => {});
  const workbench = createWorkbench(scripted.client, store, feed, levels);
  workbench.listen();
  return { ...scripted, store, feed, workbench, now: () => now } satisfies Bench;
}
