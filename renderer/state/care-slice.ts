import type { StateCreator } from 'zustand/vanilla';
import type { Care } from '../../core/bridge/care-calls.ts';

export type CareSlice = {
  /** How the archive and its disk fare; null until the host has said. */
  care: Care | null;
  careBecame(care: Care): void;
};

export const createCareSlice: StateCreator<CareSlice> = (set) => ({
  care: null,
  careBecame: (care) => set({ care }),
});
