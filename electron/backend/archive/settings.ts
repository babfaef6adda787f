import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

/** A revision as it is kept: JSON, or null where nothing is kept from it on. */
export type RevisionRow = Readonly<{ revision: number; json: string | null; changedAtMs: number }>;
export type SettingsRow = Readonly<{ revision: number; json: string; changedAtMs: number }>;

/** Statements on settings, station notes and the truck. The caller owns the transaction. */
export function settingsStatements(archive: Database, session: Session) {
  const addSettings = archive.prepare(
    'INSERT INTO settings_revision (revision, settings, changed_at, session) VALUES (?, ?, ?, ?)',
  );
  const addNotes = archive.prepare(
    'INSERT INTO notes_revision (station_id, revision, notes, changed_at, session) VALUES (?, ?, ?, ?, ?)',
  );
  const addTruck = archive.prepare(
    'INSERT INTO truck_revision (revision, truck, visit, changed_at, session) VALUES (?, ?, ?, ?, ?)',
  );
  const settings = archive.prepare<[], SettingsRow>(
    'SELECT revision, settings json, changed_at changedAtMs FROM settings_revision ORDER BY revision DESC LIMIT 1',
  );
  const notes = archive.prepare<[string], RevisionRow>(
    'SELECT revision, notes json, changed_at changedAtMs FROM notes_revision WHERE station_id = ? ORDER BY revision DESC LIMIT 1',
  );
  const truck = archive.prepare<[], RevisionRow>(
    'SELECT revision, truck json, changed_at changedAtMs FROM truck_revision ORDER BY revision DESC LIMIT 1',
  );
  return {
    addSettings: ({ revision, json, changedAtMs }: SettingsRow): void => {
      addSettings.run(revision, json, changedAtMs, session.number());
    },
    addNotes: (stationId: string, { revision, json, changedAtMs }: RevisionRow): void => {
      addNotes.run(stationId, revision, json, changedAtMs, session.number());
    },
    /** @param visit  the visit's `seq` where parts were fitted, null where the stock was counted */
    addTruck: ({ revision, json, changedAtMs }: RevisionRow, visit: number | null): void => {
      addTruck.run(revision, json, visit, changedAtMs, session.number());
    },
    newestSettings: (): SettingsRow | undefined => settings.get(),
    newestNotes: (stationId: string): RevisionRow | undefined => notes.get(stationId),
    newestTruck: (): RevisionRow | undefined => truck.get(),
  };
}
