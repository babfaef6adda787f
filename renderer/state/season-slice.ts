import type { StateCreator } from 'zustand/vanilla';
import type { Climate } from '../../core/files/climate.ts';
import type { ControlMode } from '../../core/season/plan.ts';
import { SEASON_DEFAULTS } from '../../core/season/rows.ts';
import { SUN_OFFSET_C } from '../../core/season/sun.ts';

/** The weather of the place: from two numbers, or from a file of days. It is the same for every station around. */
export type Weather = Readonly<{
  climate: Climate;
  /** Null: the two numbers. */
  fileName: string | null;
  /** True until somebody said it. */
  isAssumed: boolean;
}>;

export type SeasonSlice = {
  weather: Weather;
  sunOffsetC: number;
  /** Null: the station's own mode. */
  seasonMode: ControlMode | null;
  seasonFace: 'year' | 'watch';
  weatherSaid(climate: Climate, fileName: string | null): void;
  sunSaid(sunOffsetC: number): void;
  seasonModeChosen(mode: ControlMode | null): void;
  seasonFaceChosen(face: 'year' | 'watch'): void;
};

export const createSeasonSlice: StateCreator<SeasonSlice> = (set) => ({
  weather: {
    climate: {
      days: [],
      coldestC: SEASON_DEFAULTS.fromC,
      hottestC: SEASON_DEFAULTS.toC,
      withoutReading: [],
    },
    fileName: null,
    isAssumed: true,
  },
  sunOffsetC: SUN_OFFSET_C,
  seasonMode: null,
  seasonFace: 'year',
  weatherSaid: (climate, fileName) => set({ weather: { climate, fileName, isAssumed: false } }),
  sunSaid: (sunOffsetC) => set({ sunOffsetC }),
  seasonModeChosen: (seasonMode) => set({ seasonMode }),
  seasonFaceChosen: (seasonFace) => set({ seasonFace }),
});
