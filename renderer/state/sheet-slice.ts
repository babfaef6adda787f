import type { StateCreator } from 'zustand/vanilla';
import type { StationSheet, Sweep } from '../../core/bridge/records.ts';

/** The recommended choice, or an alternative by its place in the list. */
export type PickedChoice = 'recommended' | number;

export type OpenSheet = Readonly<{
  at: 'open';
  sheet: StationSheet;
  portName: string;
  /** Null: the newest sweep of the port is shown. */
  chosenSweepId: string | null;
  /** Which choice of the proposal was picked by hand; null: none, so the sheet shows what it advises. */
  picked: PickedChoice | null;
  /** Finished sweeps with their readings, by id; a sweep never changes, so it is fetched once. */
  sweeps: Readonly<Record<string, Sweep>>;
}>;

export type Sheet =
  | Readonly<{ at: 'none' }>
  | Readonly<{ at: 'opening'; stationId: string }>
  | OpenSheet
  | Readonly<{ at: 'failed'; stationId: string; help: string }>;

export type SheetSlice = {
  sheet: Sheet;
  sheetOpening(stationId: string): void;
  sheetArrived(sheet: StationSheet): void;
  sheetFailed(stationId: string, help: string): void;
  sheetClosed(): void;
  sweepsArrived(sweeps: readonly Sweep[]): void;
  sweepChosen(sweepId: string | null): void;
  portChosen(portName: string): void;
  choicePicked(picked: PickedChoice | null): void;
};

/** The port a technician looks at first: the first with a design, else the first. */
const firstPort = (sheet: StationSheet): string =>
  (sheet.station.ports.find((port) => port.design !== undefined) ?? sheet.station.ports[0])?.name ?? '';

export const createSheetSlice: StateCreator<SheetSlice> = (set) => ({
  sheet: { at: 'none' },
  sheetOpening: (stationId) => set({ sheet: { at: 'opening', stationId } }),
  sheetArrived: (arrived) =>
    set(({ sheet }) => {
      const stationId = arrived.station.id;
      if (sheet.at === 'open' && sheet.sheet.station.id === stationId) {
        const stands = arrived.station.ports.some((port) => port.name === sheet.portName);
        return {
          sheet: { ...sheet, sheet: arrived, portName: stands ? sheet.portName : firstPort(arrived) },
        };
      }
      if (sheet.at === 'opening' && sheet.stationId === stationId)
        return {
          sheet: {
            at: 'open',
            sheet: arrived,
            portName: firstPort(arrived),
            chosenSweepId: null,
            picked: null,
            sweeps: {},
          },
        };
      return {};
    }),
  sheetFailed: (stationId, help) =>
    set(({ sheet }) =>
      sheet.at === 'opening' && sheet.stationId === stationId
        ? { sheet: { at: 'failed', stationId, help } }
        : {},
    ),
  sheetClosed: () => set({ sheet: { at: 'none' } }),
  sweepsArrived: (arrived) =>
    set(({ sheet }) => {
      if (sheet.at !== 'open') return {};
      const stationId = sheet.sheet.station.id;
      const ours = arrived.filter(({ summary }) => summary.stationId === stationId);
      if (ours.length === 0) return {};
      const added = Object.fromEntries(ours.map((sweep) => [sweep.summary.sweepId, sweep]));
      return { sheet: { ...sheet, sweeps: { ...sheet.sweeps, ...added } } };
    }),
  sweepChosen: (chosenSweepId) =>
    set(({ sheet }) => (sheet.at === 'open' ? { sheet: { ...sheet, chosenSweepId, picked: null } } : {})),
  portChosen: (portName) =>
    set(({ sheet }) =>
      sheet.at === 'open' && sheet.portName !== portName
        ? { sheet: { ...sheet, portName, chosenSweepId: null, picked: null } }
        : {},
    ),
  choicePicked: (picked) => set(({ sheet }) => (sheet.at === 'open' ? { sheet: { ...sheet, picked } } : {})),
});
