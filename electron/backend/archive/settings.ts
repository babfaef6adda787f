import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

/** A revision as it is kept: JSON, or null where nothing is kept from it on. */
export type RevisionRow = Readonly<{ revision: number; json: string | null; changedAtMs: number }>;
/** Its number is the next in this archive, whoever's the ones before are. */
export type NewRevision = Omit<RevisionRow, 'revision'>;
export type SettingsRow = Readonly<{ revision: number; json: string; changedAtMs: number }>;

/** What other devices were told and what is in other trucks is kept, and counts for them alone. */
const OWN = `(SELECT x.device FROM session x WHERE x.seq = t.session) =
  (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1)`;

/** Statements on settings, station notes and the truck. The caller owns the transaction. */
export function settingsStatements(archive: Database, session: Session) {
  const addSettings = archive.prepare(
    `INSERT INTO settings_revision (revision, settings, changed_at, session, order_ms)
     VALUES ((SELECT coalesce(max(r.revision), 0) + 1 FROM settings_revision r), ?, ?, ?, ?)`,
  );
  const addNotes = archive.prepare(
    `INSERT INTO notes_revision (station_id, revision, notes, changed_at, session, order_ms) VALUES (@stationId,
     (SELECT coalesce(max(r.revision), 0) + 1 FROM notes_revision r WHERE r.station_id = @stationId), @json, @changedAtMs, @session, @order)`,
  );
  const addTruck = archive.prepare(
    `INSERT INTO truck_revision (revision, truck, visit, changed_at, session, order_ms)
     VALUES ((SELECT coalesce(max(r.revision), 0) + 1 FROM truck_revision r), ?, ?, ?, ?, ?)`,
  );
  const settings = archive.prepare<[], SettingsRow>(
    `SELECT t.revision, t.settings json, t.changed_at changedAtMs FROM settings_revision t
     WHERE ${OWN} ORDER BY t.revision DESC LIMIT 1`,
  );
  const notes = archive.prepare<[string], RevisionRow>(
    `SELECT revision, notes json, changed_at changedAtMs FROM notes_revision WHERE station_id = ?
     ORDER BY order_ms DESC, revision DESC LIMIT 1`,
  );
  const truck = archive.prepare<[], RevisionRow>(
    `SELECT t.revision, t.truck json, t.changed_at changedAtMs FROM truck_revision t
     WHERE ${OWN} ORDER BY t.revision DESC LIMIT 1`,
  );
  return {
    addSettings: ({ json, changedAtMs }: Omit<SettingsRow, 'revision'>): void => {
      const order = session.order(changedAtMs);
      const { lastInsertRowid } = addSettings.run(json, changedAtMs, session.number(), order);
      session.link('settings', Number(lastInsertRowid));
    },
    addNotes: (stationId: string, { json, changedAtMs }: NewRevision): void => {
      const order = session.order(changedAtMs);
      const row = { stationId, json, changedAtMs, session: session.number(), order };
      const { lastInsertRowid } = addNotes.run(row);
      session.link('notes', Number(lastInsertRowid));
    },
    /** @param visit  the visit's `seq` where parts were fitted, null where the stock was counted */
    addTruck: ({ json, changedAtMs }: NewRevision, visit: number | null): void => {
      const order = session.order(changedAtMs);
      const { lastInsertRowid } = addTruck.run(json, visit, changedAtMs, session.number(), order);
      session.link('truck', Number(lastInsertRowid));
    },
    newestSettings: (): SettingsRow | undefined => settings.get(),
    newestNotes: (stationId: string): RevisionRow | undefined => notes.get(stationId),
    newestTruck: (): RevisionRow | undefined => truck.get(),
  };
}
