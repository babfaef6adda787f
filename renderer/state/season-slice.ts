import type { StateCreator } from 'zustand/vanilla';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
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
  /** The set-ups of one station, newest first; null until they were asked for. */
  setUpsOf: Readonly<{ stationId: string; setUps: readonly SetUpRecord[] }> | null;
  /** Whose reach of the control the year is computed with, where a set-up has measured one. */
  reachFrom: 'set-up' | 'file';
  weatherSaid(climate: Climate, fileName: string | null): void;
  sunSaid(sunOffsetC: number): void;
  seasonModeChosen(mode: ControlMode | null): void;
  seasonFaceChosen(face: 'year' | 'watch'): void;
  setUpsListed(stationId: string, setUps: readonly SetUpRecord[]): void;
  reachChosen(reachFrom: 'set-up' | 'file'): void;
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
  setUpsOf: null,
  reachFrom: 'set-up',
  weatherSaid: (climate, fileName) => set({ weather: { climate, fileName, isAssumed: false } }),
  sunSaid: (sunOffsetC) => set({ sunOffsetC }),
  seasonModeChosen: (seasonMode) => set({ seasonMode }),
  seasonFaceChosen: (seasonFace) => set({ seasonFace }),
  setUpsListed: (stationId, setUps) => set({ setUpsOf: { stationId, setUps } }),
  reachChosen: (reachFrom) => set({ reachFrom }),
});
