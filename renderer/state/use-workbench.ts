import { createContext, useContext } from 'react';
import { useStore } from 'zustand';
import type { LiveFeed } from './live-feed.ts';
import type { State, Store } from './store.ts';
import type { Workbench } from './workbench.ts';

export type Bench = Readonly<{ store: Store; workbench: Workbench; feed: LiveFeed; now: () => string }>;

export const BenchContext = createContext<Bench | null>(null);

/** What the screens work with; a screen outside the workbench is a programmer's mistake. */
export function useBench(): Bench {
  const bench = useContext(BenchContext);
  if (bench === null) throw new Error('a screen stands outside the workbench');
  return bench;
}

export const useWorkbench = (): Workbench => useBench().workbench;

/** Only for the named selectors of select.ts. */
export const useSelected = <T>(select: (state: State) => T): T => useStore(useBench().store, select);

/** The slices' actions; they never change, so nothing is subscribed to. */
export const useActions = (): State => useBench().store.getState();
