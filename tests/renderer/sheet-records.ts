import type { StationRow, StationSheet, Sweep, SweepSummary, Visit } from '../../core/bridge/records.ts';
import type { SetUpRecord } from '../../core/bridge/set-up-calls.ts';
import { FIRST_SETTINGS, type Settings } from '../../core/bridge/settings-calls.ts';
import type { PluggedIn, Station } from '../../core/files/station.ts';
import type { JudgedBy } from '../../renderer/state/sheet-view.ts';

const id = (n: number) => `00000000-0000-4000-8000-${String(n).padStart(12, '0')}`;
export const visitId = id(1);
export const oldVisitId = id(2);

export const station: Station = {
  format: 'tiltwright-station/1',
  id: 'test-07',
  name: '07 Mill Lane',
  ports: [
    {
      name: 'forward output',
      direction: 'forward',
      testPointLossDb: 20,
      design: {
        lowMhz: 54,
        lowDbmv: 36,
        highMhz: 870,
        highDbmv: 46,
        shape: 'linear',
        toleranceDb: 1,
        flatnessDb: 2.5,
      },
      through: ['input pad', 'input equalizer'],
    },
    { name: 'forward input', direction: 'forward', testPointLossDb: 20, through: [] },
  ],
  positions: [
    { name: 'input pad', kind: 'pad', installed: 6, values: [0, 1, 2, 3, 4, 5, 6, 7, 8] },
    {
      name: 'input equalizer',
      kind: 'equalizer',
      topMhz: 870,
      insertionLossDb: 1,
      installed: 8,
      values: [0, 2, 4, 6, 8, 10, 12],
    },
  ],
};
export const installed: PluggedIn = { 'input pad': 6, 'input equalizer': 8 };

const visit = (visitIdOf: string, endedAt: string | null): Visit => ({
  visitId: visitIdOf,
  stationId: station.id,
  operator: 'R. Ames',
  ambientC: 12,
  startedAt: '2026-11-25T09:00:00.000Z',
  endedAt,
  cautionsReadAt: '2026-11-25T09:00:00.000Z',
  note: '',
});

/** A meter that is never wrong, so that a verdict is pass or fail by the reading alone. */
export const exact: Settings = {
  ...FIRST_SETTINGS,
  meter: {
    accuracyDb: 0,
    acrossBandDb: 0,
    repeatabilityDb: 0,
    testPointToleranceDb: 0,
    temperatureDbPerC: 0,
    calibratedAtC: 23,
  },
};
export const byReading: JudgedBy = { settings: exact, notes: null, truck: null };

export type SweepStory = Readonly<{
  n: number;
  offDb: (frequencyMhz: number) => number;
  pluggedIn?: PluggedIn;
  over?: Partial<SweepSummary>;
}>;

/** A sweep of 136 channels that lies off its design by what the story says; levels are the meter's, 20 dB down. */
export function sweepOf({ n, offDb, pluggedIn = installed, over = {} }: SweepStory): Sweep {
  const frequencies = Array.from({ length: 136 }, (_, i) => 57 + 6 * i);
  const startedAt = `2026-11-25T09:${String(10 + n).padStart(2, '0')}:00.000Z`;
  return {
    summary: {
      sweepId: id(100 + n),
      visitId,
      stationId: station.id,
      revision: 1,
      portName: 'forward output',
      purpose: 'as-found',
      state: 'complete',
      source: 'meter',
      sourceName: 'scpi',
      meter: null,
      testPointLossDb: 20,
      ambientC: 12,
      startedAt,
      endedAt: startedAt,
      plannedCount: 136,
      readingCount: 136,
      endReason: null,
      pluggedIn: { ...pluggedIn },
      voided: null,
      corrects: null,
      correctedBy: null,
      ...over,
    },
    readings: frequencies.map((f) => ({
      frequencyMhz: f,
      meterDbmv: 36 + (10 * (f - 54)) / 816 + offDb(f) - 20,
      kind: 'qam',
      takenAt: startedAt,
    })),
  };
}

export const sheetOf = (
  sweeps: readonly Sweep[],
  over: Partial<StationSheet> = {},
): Readonly<{ sheet: StationSheet; byId: Record<string, Sweep> }> => ({
  sheet: {
    station,
    revision: 1,
    revisedAt: '2026-11-01T09:00:00.000Z',
    pluggedIn: { ...installed },
    openVisit: visit(visitId, null),
    visits: [visit(visitId, null)],
    sweeps: sweeps.map(({ summary }) => summary).toReversed(),
    fittings: [],
    turns: [],
    proposals: [],
    ...over,
  },
  byId: Object.fromEntries(sweeps.map((sweep) => [sweep.summary.sweepId, sweep])),
});

/** A station that nobody has read yet, as it stands in the list. */
export const neverRead = (stationId: string, name: string, revision = 1): StationRow => ({
  stationId,
  name,
  revision,
  sweepCount: 0,
  openVisit: false,
  standing: null,
});

/** What answers `sweeps.open` out of the sweeps that are there by then. */
export const sweepFrom =
  (kept: Readonly<{ byId: Readonly<Record<string, Sweep>> }>) =>
  ({ sweepId }: Readonly<{ sweepId: string }>): Sweep => {
    const sweep = kept.byId[sweepId];
    if (sweep === undefined) throw new Error('no such sweep');
    return sweep;
  };

/** A gain control that gets a new module, just begun. */
export const newModuleSetUp = (over: Partial<SetUpRecord>): SetUpRecord => ({
  setUpId: '00000000-0000-4000-8000-00000000000a',
  visitId,
  stationId: station.id,
  revision: 1,
  startedAt: '2026-11-25T09:15:00.000Z',
  plan: {
    kind: 'new-module',
    outputPort: 'forward output',
    inputPort: 'forward input',
    topMhz: 870,
    topCarrierMhz: 867,
    pilotMhz: 711,
    spanDb: 22,
    ambientC: 12,
  },
  events: [],
  abandoned: null,
  ...over,
});
