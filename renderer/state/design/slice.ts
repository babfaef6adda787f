import type { StateCreator } from 'zustand/vanilla';
import type { Station } from '../../../core/files/station.ts';

/** Whether a station is being described: a new one, one like another, or the open one with another design. */
export type DesignAt =
  | Readonly<{ at: 'closed' }>
  | Readonly<{ at: 'new'; like: Station | null }>
  | Readonly<{ at: 'change' }>;

export type DesignSlice = {
  designAt: DesignAt;
  designWent(to: DesignAt): void;
};

export const createDesignSlice: StateCreator<DesignSlice> = (set) => ({
  designAt: { at: 'closed' },
  designWent: (designAt) => set({ designAt }),
});
