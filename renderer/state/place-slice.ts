import type { StateCreator } from 'zustand/vanilla';
import type { Station } from '../../core/files/station.ts';

/** Where one is at a station: its sheet, one level live, the set-up of its gain control, the year ahead, or the cable and the noise. */
export type Place = 'station' | 'peaking' | 'gain-control' | 'season' | 'span';

const places: readonly Readonly<{ place: Place; name: string; of: (station: Station) => boolean }>[] = [
  { place: 'station', name: 'Station', of: () => true },
  { place: 'peaking', name: 'Peaking', of: () => true },
  {
    place: 'gain-control',
    name: 'Gain control',
    of: ({ gainControl, ports }) =>
      gainControl !== undefined &&
      ports.some(({ direction, design }) => direction === 'forward' && design !== undefined),
  },
  {
    place: 'season',
    name: 'Season',
    of: ({ gainControl, span }) => gainControl !== undefined && span !== undefined,
  },
  {
    place: 'span',
    name: 'Span and noise',
    of: ({ ports }) => ports.some(({ direction, design }) => direction === 'forward' && design !== undefined),
  },
];

/** Where one can go at this station: what its file says nothing about has no place. */
export const placesOf = (station: Station): readonly Readonly<{ place: Place; name: string }>[] =>
  places.filter(({ of }) => of(station));

export type PlaceSlice = {
  place: Place;
  placeChosen(place: Place): void;
};

export const createPlaceSlice: StateCreator<PlaceSlice> = (set) => ({
  place: 'station',
  placeChosen: (place) => set({ place }),
});
