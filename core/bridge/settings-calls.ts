import { z } from 'zod';
import { VISIT_EVERY_MONTHS } from '../drift/attention.ts';
import { MeterUncertainty } from '../files/meter-uncertainty.ts';
import { StationNotes } from '../files/station-notes.ts';
import { Truck } from '../files/truck.ts';
import { Moment } from './records.ts';

const Nothing = z.strictObject({});
const text = z.string().trim().min(1).max(400);
/** 0 where nothing was kept yet. */
const revision = z.number().int().min(0);
const changedAt = Moment.nullable();

/** What the workbench shows numbers in, and how far the meters may be wrong. One set for everybody at this archive. */
export const Settings = z.strictObject({
  levelUnit: z.enum(['dBmV', 'dBuV', 'dBm75', 'dBm50', 'mV']),
  temperatureUnit: z.enum(['C', 'F']),
  lengthUnit: z.enum(['m', 'ft']),
  /** For every meter without a sheet of its own. */
  meter: MeterUncertainty,
  /** What the data sheet of a meter says, by its model. */
  sheets: z.record(text, MeterUncertainty),
  /** A station is due when nobody was there for so long. Revisions of older programs do not tell it. */
  visitEveryMonths: z.number().int().min(1).max(120).default(VISIT_EVERY_MONTHS),
});
export type Settings = z.infer<typeof Settings>;
export type LevelUnitName = Settings['levelUnit'];

/** What holds until somebody chooses otherwise. */
export const FIRST_SETTINGS: Settings = {
  levelUnit: 'dBmV',
  temperatureUnit: 'C',
  lengthUnit: 'm',
  meter: MeterUncertainty.parse({}),
  sheets: {},
  visitEveryMonths: VISIT_EVERY_MONTHS,
};

/** Each change is a revision of its own; earlier ones stay in the archive. */
export const StoredSettings = z.strictObject({ settings: Settings, revision, changedAt });
export type StoredSettings = z.infer<typeof StoredSettings>;

/** Null: nothing is kept beside this station's file. */
export const StoredNotes = z.strictObject({
  stationId: text,
  notes: StationNotes.nullable(),
  revision,
  changedAt,
});
export type StoredNotes = z.infer<typeof StoredNotes>;

/** Null: no stock is kept, and any value of a station's kit may be proposed. */
export const StoredTruck = z.strictObject({ truck: Truck.nullable(), revision, changedAt });
export type StoredTruck = z.infer<typeof StoredTruck>;

/** One kind of plug-in with every value that some station's kit names; `topMhz` is null for pads. */
export const KitRow = z.strictObject({
  kind: z.enum(['pad', 'equalizer', 'cable-simulator']),
  topMhz: z.number().positive().nullable(),
  valuesDb: z.array(z.number().min(0)),
});
export type KitRow = z.infer<typeof KitRow>;

/** `basedOn` is the revision that was changed; one that is no longer the newest is refused, so that nobody's is lost. */
export const settingsCalls = {
  'settings.read': { in: Nothing, out: StoredSettings },
  'settings.change': { in: z.strictObject({ basedOn: revision, settings: Settings }), out: StoredSettings },
  'notes.read': { in: z.strictObject({ stationId: text }), out: StoredNotes },
  'notes.change': {
    in: z.strictObject({ stationId: text, basedOn: revision, notes: StationNotes.nullable() }),
    out: StoredNotes,
  },
  'truck.read': { in: Nothing, out: z.strictObject({ ...StoredTruck.shape, kit: z.array(KitRow) }) },
  'truck.change': { in: z.strictObject({ basedOn: revision, truck: Truck.nullable() }), out: StoredTruck },
} as const;

/** So that every page shows the same. The truck also changes when parts are fitted. */
export const settingsEvents = {
  'settings.changed': StoredSettings,
  'notes.changed': StoredNotes,
  'truck.changed': StoredTruck,
} as const;
