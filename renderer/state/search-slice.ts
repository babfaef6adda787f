import type { StateCreator } from 'zustand/vanilla';
import type { FoundSweep, FoundVisit } from '../../core/bridge/search-calls.ts';

/** What the archive found for a text; the page's own lists are looked through without it. */
export type Found = Readonly<{
  forText: string;
  visits: readonly FoundVisit[];
  sweeps: readonly FoundSweep[];
  /** Why nothing came; empty when it did. */
  help: string;
}>;
export const NOTHING_FOUND: Found = { forText: '', visits: [], sweeps: [], help: '' };

export type SearchSlice = {
  searchIsOpen: boolean;
  found: Found;
  searchOpened(): void;
  searchClosed(): void;
  foundCame(found: Found): void;
};

export const createSearchSlice: StateCreator<SearchSlice> = (set) => ({
  searchIsOpen: false,
  found: NOTHING_FOUND,
  searchOpened: () => set({ searchIsOpen: true, found: NOTHING_FOUND }),
  searchClosed: () => set({ searchIsOpen: false }),
  foundCame: (found) => set({ found }),
});
