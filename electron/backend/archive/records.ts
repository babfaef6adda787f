/*
 * What of each table is in a record's document, for every kind that is one row: the key in the document, the column, and
 * how one becomes the other. A local number never leaves: rows are named by their UUID. Changing this changes hashes.
 */
export type Field = Readonly<{
  key: string;
  column: string;
  as: 'plain' | 'decimal' | 'session' | 'visit' | 'sweep' | 'proposal' | 'live' | 'set_up' | 'design';
}>;
export type SimpleKind = Readonly<{
  table: string;
  /** The columns that find the row: `seq`, or what names its parent, and its place where one parent has many. */
  row: string;
  place: string | null;
  /** The key that is the record's id; null where its own content is. */
  id: string | null;
  fields: readonly Field[];
}>;

const plain = (key: string, column: string): Field => ({ key, column, as: 'plain' });
const decimal = (key: string, column: string): Field => ({ key, column, as: 'decimal' });
const of = (as: Exclude<Field['as'], 'plain' | 'decimal' | 'design'>): Field => ({
  key: as === 'set_up' ? 'setUp' : as,
  column: as,
  as,
});
const session = of('session');
const order = plain('orderMs', 'order_ms');
const station = plain('stationId', 'station_id');
const design: Field = { key: 'design', column: 'revision', as: 'design' };
const bySeq = { row: 'seq', place: null } as const;

export const simpleKinds = {
  session: {
    ...bySeq,
    table: 'session',
    id: 'sessionId',
    fields: [
      plain('sessionId', 'session_id'),
      plain('openedAtMs', 'opened_at'),
      plain('program', 'program'),
      plain('host', 'host'),
      plain('utcOffsetMin', 'utc_offset_min'),
      plain('timeZone', 'time_zone'),
    ],
  },
  design: {
    ...bySeq,
    table: 'design_revision',
    id: 'designId',
    fields: [
      plain('designId', 'design_id'),
      station,
      plain('name', 'name'),
      plain('design', 'design'),
      plain('fileName', 'file_name'),
      plain('addedAtMs', 'added_at'),
      order,
      session,
    ],
  },
  visit: {
    ...bySeq,
    table: 'visit',
    id: 'visitId',
    fields: [
      plain('visitId', 'visit_id'),
      station,
      plain('operator', 'operator'),
      plain('ambientMc', 'ambient_mc'),
      plain('cautionsReadAtMs', 'cautions_read_at'),
      plain('startedAtMs', 'started_at'),
      order,
      session,
    ],
  },
  'visit-end': {
    table: 'visit_end',
    row: 'visit',
    place: null,
    id: 'visit',
    fields: [of('visit'), plain('note', 'note'), plain('endedAtMs', 'ended_at'), session],
  },
  void: {
    ...bySeq,
    table: 'sweep_void',
    id: 'voidId',
    fields: [
      plain('voidId', 'void_id'),
      of('sweep'),
      plain('reason', 'reason'),
      plain('operator', 'operator'),
      plain('voidedAtMs', 'voided_at'),
      order,
      session,
    ],
  },
  proposal: {
    ...bySeq,
    table: 'proposal',
    id: 'proposalId',
    fields: [
      plain('proposalId', 'proposal_id'),
      of('visit'),
      of('sweep'),
      station,
      plain('plugIns', 'plug_ins'),
      plain('worstBeforeMdb', 'worst_before_mdb'),
      plain('worstPredictedMdb', 'worst_predicted_mdb'),
      plain('proposedAtMs', 'proposed_at'),
      order,
      session,
    ],
  },
  fitting: {
    ...bySeq,
    table: 'fitting',
    id: 'fittingId',
    fields: [
      plain('fittingId', 'fitting_id'),
      of('visit'),
      station,
      design,
      plain('position', 'position'),
      decimal('from', 'from_value'),
      decimal('to', 'to_value'),
      of('proposal'),
      plain('fittedAtMs', 'fitted_at'),
      order,
      session,
    ],
  },
  'trim-turn': {
    ...bySeq,
    table: 'trim_turn',
    id: 'turnId',
    fields: [
      plain('turnId', 'turn_id'),
      of('visit'),
      of('sweep'),
      station,
      plain('portName', 'port_name'),
      plain('trim', 'trim'),
      plain('trimKind', 'trim_kind'),
      plain('frequencyHz', 'frequency_hz'),
      plain('byMdb', 'by_mdb'),
      plain('turnedAtMs', 'turned_at'),
      order,
      session,
    ],
  },
  'set-up': {
    ...bySeq,
    table: 'set_up',
    id: 'setUpId',
    fields: [
      plain('setUpId', 'set_up_id'),
      of('visit'),
      station,
      design,
      plain('plan', 'plan'),
      plain('startedAtMs', 'started_at'),
      order,
      session,
    ],
  },
  'set-up-event': {
    table: 'set_up_event',
    row: 'set_up',
    place: 'place',
    id: null,
    fields: [
      of('set_up'),
      plain('place', 'place'),
      plain('step', 'step'),
      plain('outcome', 'outcome'),
      plain('by', 'by'),
      plain('reason', 'reason'),
      plain('entered', 'entered'),
      of('live'),
      plain('happenedAtMs', 'happened_at'),
      session,
    ],
  },
  'set-up-abandoned': {
    table: 'set_up_abandoned',
    row: 'set_up',
    place: null,
    id: 'setUp',
    fields: [of('set_up'), plain('reason', 'reason'), plain('abandonedAtMs', 'abandoned_at'), session],
  },
  settings: {
    ...bySeq,
    table: 'settings_revision',
    id: null,
    fields: [plain('settings', 'settings'), plain('changedAtMs', 'changed_at'), order, session],
  },
  notes: {
    ...bySeq,
    table: 'notes_revision',
    id: null,
    fields: [station, plain('notes', 'notes'), plain('changedAtMs', 'changed_at'), order, session],
  },
  truck: {
    ...bySeq,
    table: 'truck_revision',
    id: null,
    fields: [plain('truck', 'truck'), of('visit'), plain('changedAtMs', 'changed_at'), order, session],
  },
  'meter-use': {
    ...bySeq,
    table: 'meter_use',
    id: null,
    fields: [
      plain('choice', 'choice'),
      plain('identity', 'identity'),
      plain('adapter', 'adapter'),
      plain('connectedAtMs', 'connected_at'),
      order,
      session,
    ],
  },
  calibration: {
    ...bySeq,
    table: 'meter_calibration',
    id: null,
    fields: [
      plain('maker', 'maker'),
      plain('model', 'model'),
      plain('serialNumber', 'serial_number'),
      plain('adapter', 'adapter'),
      plain('dueOn', 'due_on'),
      plain('notedAtMs', 'noted_at'),
      order,
      session,
    ],
  },
  'simulated-hand': {
    ...bySeq,
    table: 'simulated_hand',
    id: null,
    fields: [
      station,
      plain('hand', 'hand'),
      plain('ambientMc', 'ambient_mc'),
      plain('doneAtMs', 'done_at'),
      order,
      session,
    ],
  },
} as const satisfies Readonly<Record<string, SimpleKind>>;

export type SimpleKindName = keyof typeof simpleKinds;
export const isSimple = (kind: string): kind is SimpleKindName => Object.hasOwn(simpleKinds, kind);

/** The column of a row as its document has it. */
export function readingOfField({ column, as }: Field, row = 't'): string {
  const at = `${row}.${column}`;
  switch (as) {
    case 'plain':
    case 'decimal':
      return at;
    case 'design':
      return `(SELECT r.design_id FROM design_revision r WHERE r.station_id = ${row}.station_id AND r.revision = ${at})`;
    case 'session':
    case 'visit':
    case 'sweep':
    case 'proposal':
    case 'live':
    case 'set_up':
      return `(SELECT r.${as}_id FROM ${as} r WHERE r.seq = ${at})`;
  }
}

/** A number that is printed on a part, as the shortest text that is this number. */
export const decimalText = (value: number): string => String(value);
