import type { StateCreator } from 'zustand/vanilla';
import type { CascadeLink } from '../../core/bridge/cascade-calls.ts';

/** The station with all that feed it, the first of them first; what the screen of span and noise is made from. */
export type CascadeSeen =
  | Readonly<{ at: 'none' }>
  | Readonly<{ at: 'failed'; stationId: string; help: string }>
  | Readonly<{ at: 'here'; stationId: string; links: readonly CascadeLink[]; unknownId: string | null }>;

export type SpanSlice = {
  cascade: CascadeSeen;
  cascadeArrived(stationId: string, links: readonly CascadeLink[], unknownId: string | null): void;
  cascadeFailed(stationId: string, help: string): void;
};

export const createSpanSlice: StateCreator<SpanSlice> = (set) => ({
  cascade: { at: 'none' },
  cascadeArrived: (stationId, links, unknownId) =>
    set({ cascade: { at: 'here', stationId, links, unknownId } }),
  cascadeFailed: (stationId, help) => set({ cascade: { at: 'failed', stationId, help } }),
});
