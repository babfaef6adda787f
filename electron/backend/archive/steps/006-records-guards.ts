import { ordered } from './006-records-tables.ts';

/** Every table here holds records. */
export const recordChainTables = [
  'device',
  'own_device',
  'link',
  'shared_text',
  'frequency_list',
  'sweep_levels',
  'sweep_correction',
  'sweep_void',
] as const;

const neverChanged = (table: string) => `
CREATE TRIGGER ${table}_is_never_changed BEFORE UPDATE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never changed'); END;`;
const neverDeleted = (table: string) => `
CREATE TRIGGER ${table}_is_never_deleted BEFORE DELETE ON ${table}
BEGIN SELECT RAISE(ABORT, '${table} is a record: it is never deleted'); END;`;

export const guards = [
  ...ordered.map(([table]) => neverChanged(table)),
  ...[...recordChainTables, 'sweep'].map((table) => neverChanged(table) + neverDeleted(table)),
].join('');

const own = (sessionOf: string) =>
  `(SELECT x.device FROM session x WHERE x.seq = ${sessionOf}) =
   (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1)`;
const refuses = (name: string, table: string, when: string, words: string) =>
  `CREATE TRIGGER ${name} BEFORE INSERT ON ${table} WHEN ${when}
BEGIN SELECT RAISE(ABORT, '${words}'); END;\n`;
/** Takes the place of a trigger of an earlier step. */
const onlyOwn = (name: string, table: string, when: string, words: string) =>
  `DROP TRIGGER IF EXISTS ${name};\n${refuses(name, table, `${own('NEW.session')} AND ${when}`, words)}`;
const endedVisit = (visit: string) => `EXISTS (SELECT 1 FROM visit_end e WHERE e.visit = ${visit})`;

export const order = [
  onlyOwn(
    'one_open_visit',
    'visit',
    `EXISTS (SELECT 1 FROM visit v WHERE v.station_id = NEW.station_id AND ${own('v.session')}
       AND NOT ${endedVisit('v.seq')})`,
    'the station has an open visit',
  ),
  onlyOwn(
    'an_ended_visit_takes_no_sweep',
    'sweep',
    `NEW.corrects IS NULL AND ${endedVisit('NEW.visit')}`,
    'the visit has ended',
  ),
  onlyOwn('an_ended_visit_takes_no_fitting', 'fitting', endedVisit('NEW.visit'), 'the visit has ended'),
  onlyOwn('an_ended_visit_takes_no_live', 'live', endedVisit('NEW.visit'), 'the visit has ended'),
  onlyOwn('an_ended_visit_takes_no_set_up', 'set_up', endedVisit('NEW.visit'), 'the visit has ended'),
  onlyOwn(
    'an_ended_visit_takes_no_step',
    'set_up_event',
    endedVisit('(SELECT s.visit FROM set_up s WHERE s.seq = NEW.set_up)'),
    'the visit has ended',
  ),
  onlyOwn(
    'one_set_up_in_a_visit',
    'set_up',
    `EXISTS (SELECT 1 FROM set_up s WHERE s.visit = NEW.visit
      AND NOT EXISTS (SELECT 1 FROM set_up_abandoned a WHERE a.set_up = s.seq))`,
    'the visit has a set-up',
  ),
  onlyOwn(
    'set_up_events_come_in_order',
    'set_up_event',
    'NEW.place <> (SELECT coalesce(max(e.place) + 1, 0) FROM set_up_event e WHERE e.set_up = NEW.set_up)',
    'an event of the set-up is missing before this one',
  ),
  onlyOwn(
    'an_abandoned_set_up_takes_no_step',
    'set_up_event',
    'EXISTS (SELECT 1 FROM set_up_abandoned a WHERE a.set_up = NEW.set_up)',
    'the set-up was given up',
  ),
  onlyOwn(
    'one_watch_at_a_time',
    'watch',
    'EXISTS (SELECT 1 FROM watch w WHERE NOT EXISTS (SELECT 1 FROM watch_end e WHERE e.watch = w.seq))',
    'a watch is running',
  ),
  onlyOwn(
    'a_sweep_is_voided_once',
    'sweep_void',
    'EXISTS (SELECT 1 FROM sweep_void v WHERE v.sweep = NEW.sweep)',
    'the sweep is void already',
  ),
  'DROP TRIGGER an_end_counts_its_readings;\n',
  refuses(
    'an_end_counts_its_readings',
    'sweep_end',
    'NEW.reading_count IS NOT (SELECT l.reading_count FROM sweep_levels l WHERE l.sweep = NEW.sweep)',
    'the end of the sweep counts other readings than there are',
  ),
  refuses(
    'levels_are_packed_whole',
    'sweep_levels',
    `EXISTS (SELECT 1 FROM reading r WHERE r.sweep = NEW.sweep)
     AND NEW.reading_count <> (SELECT count(*) FROM reading r WHERE r.sweep = NEW.sweep)`,
    'a reading of the sweep is not among its packed ones',
  ),
  refuses(
    'packed_levels_take_no_reading',
    'reading',
    'EXISTS (SELECT 1 FROM sweep_levels l WHERE l.sweep = NEW.sweep)',
    'the sweep has ended',
  ),
  // The readings of a running sweep are a journal: they go when the same transaction has packed them.
  `CREATE TRIGGER reading_is_deleted_when_packed BEFORE DELETE ON reading
WHEN NOT EXISTS (SELECT 1 FROM sweep_levels l WHERE l.sweep = OLD.sweep)
BEGIN SELECT RAISE(ABORT, 'reading is a record: it is never deleted before its sweep is packed'); END;
CREATE TRIGGER a_sweep_ends_without_journal BEFORE INSERT ON sweep_end
WHEN EXISTS (SELECT 1 FROM reading r WHERE r.sweep = NEW.sweep)
BEGIN SELECT RAISE(ABORT, 'the sweep ends before its readings are packed'); END;\n`,
].join('');

const forgetsFace = (table: string, stationOf: string) => `
CREATE TRIGGER ${table}_changes_the_face AFTER INSERT ON ${table}
BEGIN DELETE FROM station_face WHERE station = (SELECT s.seq FROM station s WHERE s.station_id = ${stationOf}); END;`;
export const faces = [
  forgetsFace('design_revision', 'NEW.station_id'),
  forgetsFace('notes_revision', 'NEW.station_id'),
  forgetsFace('visit', 'NEW.station_id'),
  forgetsFace('visit_end', '(SELECT v.station_id FROM visit v WHERE v.seq = NEW.visit)'),
  forgetsFace('sweep', 'NEW.station_id'),
  forgetsFace('sweep_end', '(SELECT w.station_id FROM sweep w WHERE w.seq = NEW.sweep)'),
  forgetsFace('sweep_void', '(SELECT w.station_id FROM sweep w WHERE w.seq = NEW.sweep)'),
].join('');

export const indexes = `
CREATE UNIQUE INDEX design_of_id ON design_revision (design_id);
CREATE INDEX sweep_of_station ON sweep (station_id, has_design, order_ms);
CREATE INDEX sweep_of_visit ON sweep (visit);
CREATE INDEX sweep_that_corrects ON sweep (corrects) WHERE corrects IS NOT NULL;
DROP INDEX visit_of_station;
CREATE INDEX visit_of_station ON visit (station_id, order_ms);
DROP INDEX proposal_of_station;
CREATE INDEX proposal_of_station ON proposal (station_id, order_ms);
DROP INDEX fitting_of_station;
CREATE INDEX fitting_of_station ON fitting (station_id, order_ms);
DROP INDEX set_up_of_station;
CREATE INDEX set_up_of_station ON set_up (station_id, order_ms);
DROP INDEX watch_of_station;
CREATE INDEX watch_of_station ON watch (station_id, order_ms);
`;
