import type { StateCreator } from 'zustand/vanilla';

/** Where one is at a station: its sheet, one level live, the set-up of its gain control, or the year ahead. */
export type Place = 'station' | 'peaking' | 'gain-control' | 'season';

export type PlaceSlice = {
  place: Place;
  placeChosen(place: Place): void;
};

export const createPlaceSlice: StateCreator<PlaceSlice> = (set) => ({
  place: 'station',
  placeChosen: (place) => set({ place }),
});
