import type { StateCreator } from 'zustand/vanilla';
import type { Output } from '../../core/bridge/contract.ts';
import type { QualityStation, QualityTrend, StationHistory } from '../../core/bridge/quality-calls.ts';
import type { Sweep } from '../../core/bridge/records.ts';
import type { AttentionList } from '../../core/drift/attention.ts';
import type { Followed } from '../../core/drift/figures.ts';

/** Where one is among all records. */
export type RecordsAt = 'closed' | 'table' | 'history' | 'period' | 'transfer';
/** What is drawn over the years. */
export type ShownFigure = Followed | 'reserve';
export type SortBy = 'name' | 'standing' | 'worst' | 'reserve' | 'visit' | 'trend';
export type RecordsSort = Readonly<{ by: SortBy; isDown: boolean }>;

/** How far the table has come: the stations, then their histories; a fault leaves what came before it. */
export type RecordsReading =
  | Readonly<{ at: 'stations' }>
  | Readonly<{ at: 'trends' }>
  | Readonly<{ at: 'done' }>
  | Readonly<{ at: 'failed'; help: string }>;

export type Records = Readonly<{
  stations: readonly QualityStation[];
  trends: Readonly<Record<string, QualityTrend>>;
  total: number | null;
  reading: RecordsReading;
}>;

export type History =
  | Readonly<{ at: 'none' }>
  | Readonly<{ at: 'reading'; stationId: string }>
  | Readonly<{ at: 'failed'; stationId: string; help: string }>
  | Readonly<{
      at: 'open';
      history: StationHistory;
      /** Sweeps with their readings, by id; they never change. */
      sweeps: Readonly<Record<string, Sweep>>;
      /** The two that are compared, the earlier first; null: none are. */
      compared: readonly [string, string] | null;
    }>;

export type Period = Readonly<{
  /** The days as the fields hold them. */
  fromDay: string;
  toDay: string;
  found:
    | Readonly<{ at: 'none' }>
    | Readonly<{ at: 'reading' }>
    | Readonly<{ at: 'found'; batch: Output<'quality.period'> }>
    | Readonly<{ at: 'failed'; help: string }>;
}>;

export type QualitySlice = {
  recordsAt: RecordsAt;
  records: Records;
  recordsList: AttentionList | 'all';
  recordsText: string;
  recordsSort: RecordsSort;
  history: History;
  figureShown: ShownFigure;
  period: Period;
  recordsWent(at: RecordsAt): void;
  recordsBegun(): void;
  recordsCame(stations: readonly QualityStation[], total: number): void;
  trendsCame(trends: readonly QualityTrend[]): void;
  recordsReading(reading: RecordsReading): void;
  listChosen(list: AttentionList | 'all'): void;
  textTyped(text: string): void;
  sortedBy(by: SortBy): void;
  historyBecame(history: History): void;
  historySweepsCame(sweeps: readonly Sweep[]): void;
  comparedBecame(compared: readonly [string, string] | null): void;
  figureChosen(of: ShownFigure): void;
  periodBecame(period: Partial<Period>): void;
};

const NOTHING: Records = { stations: [], trends: {}, total: null, reading: { at: 'stations' } };

export const createQualitySlice: StateCreator<QualitySlice> = (set) => ({
  recordsAt: 'closed',
  records: NOTHING,
  recordsList: 'all',
  recordsText: '',
  recordsSort: { by: 'name', isDown: false },
  history: { at: 'none' },
  figureShown: 'level',
  period: { fromDay: '', toDay: '', found: { at: 'none' } },
  recordsWent: (recordsAt) => set({ recordsAt }),
  // What is shown stays until the new ones come: the table is renewed, not emptied.
  recordsBegun: () =>
    set(({ records }) => ({
      records: { ...records, stations: [], total: null, reading: { at: 'stations' } },
    })),
  recordsCame: (stations, total) =>
    set(({ records }) => ({
      records: { ...records, stations: [...records.stations, ...stations], total },
    })),
  trendsCame: (trends) =>
    set(({ records }) => ({
      records: {
        ...records,
        trends: { ...records.trends, ...Object.fromEntries(trends.map((one) => [one.stationId, one])) },
      },
    })),
  recordsReading: (reading) => set(({ records }) => ({ records: { ...records, reading } })),
  listChosen: (recordsList) => set({ recordsList }),
  textTyped: (recordsText) => set({ recordsText }),
  // The first press of a heading sorts the way one would look for trouble; the second turns it about.
  sortedBy: (by) =>
    set(({ recordsSort }) => ({
      recordsSort: { by, isDown: recordsSort.by === by ? !recordsSort.isDown : by === 'worst' },
    })),
  historyBecame: (history) => set({ history }),
  historySweepsCame: (sweeps) =>
    set(({ history }) => {
      if (history.at !== 'open') return {};
      const ours = sweeps.filter(({ summary }) => summary.stationId === history.history.station.id);
      const added = Object.fromEntries(ours.map((sweep) => [sweep.summary.sweepId, sweep]));
      return { history: { ...history, sweeps: { ...history.sweeps, ...added } } };
    }),
  comparedBecame: (compared) =>
    set(({ history }) => (history.at === 'open' ? { history: { ...history, compared } } : {})),
  figureChosen: (figureShown) => set({ figureShown }),
  periodBecame: (period) => set((state) => ({ period: { ...state.period, ...period } })),
});
