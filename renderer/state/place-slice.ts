import type { StateCreator } from 'zustand/vanilla';

/** Where one is at a station: its sheet, one level live, the set-up of its gain control, the year ahead, or the cable and the noise. */
export type Place = 'station' | 'peaking' | 'gain-control' | 'season' | 'span';

export type PlaceSlice = {
  place: Place;
  placeChosen(place: Place): void;
};

export const createPlaceSlice: StateCreator<PlaceSlice> = (set) => ({
  place: 'station',
  placeChosen: (place) => set({ place }),
});
