import type { StateCreator } from 'zustand/vanilla';
import type { SimulatedModule } from '../../core/bridge/live-calls.ts';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';

/** The set-up of a visit as the archive has it; how it stands is core's to say. */
export type SetUp =
  | Readonly<{ at: 'unknown' }>
  | Readonly<{ at: 'none'; visitId: string }>
  | Readonly<{ at: 'begun'; visitId: string; record: SetUpRecord }>;

export type SetUpSlice = {
  setUp: SetUp;
  /** The simulated station's module, where there is one to turn. */
  simulatedModule: SimulatedModule | null;
  setUpArrived(visitId: string, record: SetUpRecord | null): void;
  simulatedModuleArrived(module: SimulatedModule | null): void;
};

export const createSetUpSlice: StateCreator<SetUpSlice> = (set) => ({
  setUp: { at: 'unknown' },
  simulatedModule: null,
  setUpArrived: (visitId, record) =>
    set(({ setUp }) => {
      if (record === null || record.abandoned !== null) return { setUp: { at: 'none', visitId } };
      // An answer that was overtaken by a newer one.
      if (
        setUp.at === 'begun' &&
        setUp.record.setUpId === record.setUpId &&
        setUp.record.events.length > record.events.length
      )
        return {};
      return { setUp: { at: 'begun', visitId, record } };
    }),
  simulatedModuleArrived: (simulatedModule) => set({ simulatedModule }),
});
