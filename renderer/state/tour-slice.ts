import type { StateCreator } from 'zustand/vanilla';

/** The first steps: not met yet, under way, or put away for good. */
export type Tour = 'unmet' | 'on' | 'put-away';

export type TourSlice = {
  tour: Tour;
  tourBecame(tour: Tour): void;
};

export const createTourSlice: StateCreator<TourSlice> = (set) => ({
  tour: 'unmet',
  tourBecame: (tour) => set({ tour }),
});
