import { describe, expect, it } from 'vitest';
import { ClientFault } from '../../../core/bridge/client-fault.ts';
import { FIRST_SETTINGS, type StoredSettings } from '../../../core/bridge/settings-calls.ts';
import type { LineUpEntry } from '../../../core/channels/line-up.ts';
import type { Truck } from '../../../core/files/truck.ts';
import {
  carries,
  groupsOf,
  keptDraft,
  learnedDraft,
  nearestOffsetDb,
  sameEntries,
  troubleOf,
  withChange,
  withOneMore,
  without,
} from '../../../renderer/state/line-up-draft.ts';
import { selectLevelUnit, selectTemperatureUnit } from '../../../renderer/state/select.ts';
import { EMPTY_TRUCK, truckRows, withCount, withTolerance } from '../../../renderer/state/truck-draft.ts';
import { benchOver } from '../bench-over.ts';
import { sheetOf, station } from '../sheet-records.ts';

const stored = (revision: number, over: Partial<typeof FIRST_SETTINGS> = {}): StoredSettings => ({
  settings: { ...FIRST_SETTINGS, ...over },
  revision,
  changedAt: '2026-11-25T09:00:00.000Z',
});

describe('what the archive keeps', () => {
  it('reaches every page, and an answer that comes late changes nothing back', () => {
    const { emit, store } = benchOver({});
    emit('settings.changed', stored(2, { levelUnit: 'dBuV', temperatureUnit: 'F' }));
    expect([selectLevelUnit(store.getState()), selectTemperatureUnit(store.getState())]).toEqual([
      'dBuV',
      'F',
    ]);
    store.getState().settingsArrived(stored(1));
    expect(selectLevelUnit(store.getState())).toBe('dBuV');
  });

  it('changes on top of what is held, and after a refusal shows what holds', async () => {
    const newer = stored(5, { levelUnit: 'mV' });
    const bench = benchOver({
      'settings.change': ({ basedOn, settings }) => {
        if (basedOn === 3) throw new ClientFault('refused', 'settings', 'changed elsewhere');
        return { settings, revision: basedOn + 1, changedAt: null };
      },
      'settings.read': () => newer,
    });
    bench.store.getState().settingsArrived(stored(2));
    expect(await bench.workbench.changeSettings({ ...FIRST_SETTINGS, lengthUnit: 'ft' })).toBe(true);
    expect(bench.store.getState().settings.revision).toBe(3);
    expect(await bench.workbench.changeSettings(FIRST_SETTINGS)).toBe(false);
    expect(bench.store.getState().settings).toEqual(newer);
    expect(bench.store.getState().notice?.tone).toBe('problem');
  });

  it('changes one of a station’s notes and keeps the others', async () => {
    const trims = [{ name: 'gain', kind: 'gain' as const, rangeDb: [-1, 1] as [number, number], atMhz: 870 }];
    const bench = benchOver({
      'stations.open': () => sheetOf([]).sheet,
      'notes.read': () => ({
        stationId: station.id,
        notes: { format: 'tiltwright-station-notes/1', trims },
        revision: 4,
        changedAt: null,
      }),
      'notes.change': ({ stationId, basedOn, notes }) => ({
        stationId,
        notes,
        revision: basedOn + 1,
        changedAt: null,
      }),
    });
    await bench.workbench.openStation(station.id);
    const lineUp: LineUpEntry[] = [
      { channelLabel: '2', frequencyMhz: 57, kind: 'qam', qamOrder: 256, widthMhz: 6, offsetDb: -6 },
    ];
    expect(await bench.workbench.changeNotes({ lineUp })).toBe(true);
    expect(bench.store.getState().notes).toMatchObject({ revision: 5, notes: { trims, lineUp } });
    expect(await bench.workbench.changeNotes({ lineUp: undefined })).toBe(true);
    expect(bench.store.getState().notes?.notes).toEqual({ format: 'tiltwright-station-notes/1', trims });
  });
});

describe('a line-up while it is looked over', () => {
  const rows = [57, 63, 69, 75].map((frequencyMhz) => ({ frequencyMhz, levelDbmv: 30 }));

  it('is learned with every guess named, and says so until a person has said otherwise', () => {
    const draft = learnedDraft(rows);
    if (draft === null) throw new Error('no carriers');
    expect(draft.entries).toHaveLength(4);
    expect([...draft.doubts.keys()]).toEqual([57, 63, 69, 75]);
    const told = withChange(draft, new Set([57, 63]), { kind: 'qam', qamOrder: 64 });
    expect([...told.doubts.keys()]).toEqual([69, 75]);
    // 64-QAM is usually carried 10 dB down (docsis.org forum, secondary); the offset comes with the kind.
    expect(told.entries.slice(0, 2).map(({ offsetDb }) => offsetDb)).toEqual([-10, -10]);
    expect(groupsOf(told).map(({ name, frequenciesMhz }) => [name, frequenciesMhz.length])).toEqual([
      ['64-QAM', 2],
      ['QAM of unknown order', 2],
    ]);
    expect(withChange(told, new Set([57]), { offsetDb: -9 }).entries[0]?.offsetDb).toBe(-9);
    expect(learnedDraft([])).toBeNull();
  });

  it('keeps its order when a frequency is typed, and names two that want the same place', () => {
    const draft = keptDraft(learnedDraft(rows)?.entries ?? []);
    const moved = withChange(draft, new Set([57]), { frequencyMhz: 81 });
    expect(moved.entries.map(({ frequencyMhz }) => frequencyMhz)).toEqual([63, 69, 75, 81]);
    expect(troubleOf(moved)).toBeNull();
    expect(troubleOf(withChange(draft, new Set([57]), { frequencyMhz: 64 }))).toMatch(/both take/);
    expect(troubleOf(without(draft, new Set([57, 63, 69, 75])))).toMatch(/no channel/);
    const { draft: more, addedMhz } = withOneMore(draft);
    expect([addedMhz, more.entries.length, troubleOf(more)]).toEqual([81, 5, null]);
  });

  it('draws a running sweep by the offset of the nearest channel', () => {
    const at = nearestOffsetDb([
      { channelLabel: 'b', frequencyMhz: 300, kind: 'qam', widthMhz: 6, offsetDb: -6 },
      { channelLabel: 'a', frequencyMhz: 100, kind: 'analog', widthMhz: 6, offsetDb: 0 },
    ]);
    expect([54, 100, 199, 201, 300, 870].map(at)).toEqual([0, 0, 0, -6, -6, -6]);
    expect(nearestOffsetDb([])(500)).toBe(0);
  });

  it('makes a pilot a tone without width, and a channel of it again', () => {
    const draft = keptDraft(learnedDraft(rows)?.entries ?? []);
    const pilot = withChange(draft, new Set([57]), { kind: 'cw' });
    expect(pilot.entries[0]).toMatchObject({ kind: 'cw', widthMhz: 0, offsetDb: 0 });
    expect(
      carries(pilot.entries[0] ?? draft.entries[1] ?? { ...rows, ...(draft.entries[0] as LineUpEntry) }),
    ).toBe('pilot');
    expect(withChange(pilot, new Set([57]), { kind: 'ofdm' }).entries[0]).toMatchObject({ widthMhz: 6 });
    // A block of OFDM may be as wide as it is; a channel that overlaps its neighbour then is named.
    const wide = withChange(draft, new Set([75]), { kind: 'ofdm', widthMhz: 96 });
    expect(wide.entries.at(-1)).toMatchObject({ kind: 'ofdm', widthMhz: 96 });
    expect(withChange(draft, new Set([57]), { widthMhz: 5 }).entries[0]).toMatchObject({ widthMhz: 5 });
    expect(sameEntries(draft, keptDraft(draft.entries))).toBe(true);
    expect(sameEntries(draft, wide)).toBe(false);
  });
});

describe('the truck while it is counted', () => {
  const kit = [
    { kind: 'pad' as const, topMhz: null, valuesDb: [0, 1] },
    { kind: 'equalizer' as const, topMhz: 870, valuesDb: [4] },
  ];

  it('offers every value of the kits and whatever else is in it', () => {
    const truck: Truck = { ...EMPTY_TRUCK, parts: [{ kind: 'pad', valueDb: 7, count: 2 }] };
    expect(truckRows(kit, truck).map(({ key, values, total }) => [key, values.length, total])).toEqual([
      ['pad ', 3, 2],
      ['equalizer 870', 1, 0],
    ]);
  });

  it('counts one part and leaves the others, their tolerances too', () => {
    const truck: Truck = { ...EMPTY_TRUCK, parts: [{ kind: 'pad', valueDb: 1, count: 2, toleranceDb: 0.1 }] };
    const pads = { kind: 'pad' as const, topMhz: null };
    expect(withCount(truck, pads, 1, 3).parts).toEqual([
      { kind: 'pad', valueDb: 1, count: 3, toleranceDb: 0.1 },
    ]);
    expect(withCount(truck, { kind: 'equalizer', topMhz: 870 }, 4, 1).parts[1]).toEqual({
      kind: 'equalizer',
      topMhz: 870,
      valueDb: 4,
      count: 1,
    });
  });

  it('says what one value, or all of a kind, may lie off their labels', () => {
    const truck: Truck = { ...EMPTY_TRUCK, parts: [{ kind: 'pad', valueDb: 1, count: 2 }] };
    const [pads] = truckRows(kit, truck);
    if (pads === undefined) throw new Error('no pads');
    expect(withTolerance(truck, pads, 1, 0.1).parts).toEqual([
      { kind: 'pad', valueDb: 1, count: 2, toleranceDb: 0.1 },
    ]);
    expect(withTolerance(truck, pads, null, 0.2).parts).toEqual([
      { kind: 'pad', valueDb: 1, count: 2, toleranceDb: 0.2 },
      { kind: 'pad', valueDb: 0, count: 0, toleranceDb: 0.2 },
    ]);
    expect(truckRows(kit, withTolerance(truck, pads, 1, 0.1))[0]?.values).toContainEqual({
      valueDb: 1,
      count: 2,
      toleranceDb: 0.1,
    });
  });
});
