import type { Database } from 'better-sqlite3';
import type { Session } from './session.ts';

export type MeterUseRow = Readonly<{
  /** JSON. */
  choice: string;
  /** JSON. */
  identity: string;
  adapter: string | null;
  connectedAtMs: number;
}>;

/** What was read on a meter's sticker, and which meter it was. */
export type CalibrationRow = Readonly<{
  maker: string;
  model: string;
  serialNumber: string;
  adapter: string | null;
  /** YYYY-MM-DD; null: nothing counts that was noted before. */
  dueOn: string | null;
  notedAtMs: number;
}>;
type WhichMeter = Pick<CalibrationRow, 'maker' | 'model' | 'serialNumber' | 'adapter'>;

/** Statements on the bytes of sweeps and the meters that were used. The caller owns the transaction. */
export function meterLinkStatements(archive: Database, session: Session) {
  const addPortion = archive.prepare('INSERT INTO sweep_portion (sweep, place, body) VALUES (?, ?, ?)');
  const portions = archive
    .prepare<[number], Buffer>('SELECT body FROM sweep_portion WHERE sweep = ? ORDER BY place')
    .pluck();
  const bytes = archive.prepare<[number], Buffer>('SELECT body FROM sweep_bytes WHERE sweep = ?').pluck();
  const addUse = archive.prepare(
    'INSERT INTO meter_use (choice, identity, adapter, connected_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const lastUse = archive.prepare<[], MeterUseRow>(
    `SELECT u.choice, u.identity, u.adapter, u.connected_at connectedAtMs
     FROM meter_use u JOIN session x ON x.seq = u.session
     WHERE x.device = (SELECT o.device FROM own_device o ORDER BY o.seq DESC LIMIT 1) ORDER BY u.seq DESC LIMIT 1`,
  );
  const addCalibration = archive.prepare(`INSERT INTO meter_calibration
    (maker, model, serial_number, adapter, due_on, noted_at, session, order_ms) VALUES (?, ?, ?, ?, ?, ?, ?, ?)`);
  // A serial number is the meter's own; an adapter may have had another meter behind it.
  const lastCalibration = archive.prepare<
    [string, string, string, string, string | null],
    Readonly<{ dueOn: string | null }>
  >(`SELECT due_on dueOn FROM meter_calibration
     WHERE maker = ? AND model = ? AND serial_number = ? AND (? <> '' OR adapter IS ?)
     ORDER BY order_ms DESC, seq DESC LIMIT 1`);
  const sweepsOfMeters = archive
    .prepare<[], string>("SELECT sweep_id FROM sweep WHERE source = 'meter' ORDER BY seq")
    .pluck();
  return {
    /** The ids of all sweeps that a meter read, in the order in which this archive got them. */
    sweepsOfMeters: (): readonly string[] => sweepsOfMeters.all(),
    /** @param seq  the sweep's */
    addPortion: (seq: number, place: number, body: Uint8Array): void => {
      addPortion.run(seq, place, body);
    },
    portions: (seq: number): readonly Uint8Array[] => portions.all(seq),
    /** The bytes of a sweep of before they were kept in portions. */
    bytes: (seq: number): Uint8Array | undefined => bytes.get(seq),
    addUse: (use: MeterUseRow): void => {
      const { lastInsertRowid } = addUse.run(
        use.choice,
        use.identity,
        use.adapter,
        use.connectedAtMs,
        session.number(),
        session.order(use.connectedAtMs),
      );
      session.link('meter-use', Number(lastInsertRowid));
    },
    addCalibration: (row: CalibrationRow): void => {
      const { maker, model, serialNumber, adapter, dueOn, notedAtMs } = row;
      const order = session.order(notedAtMs);
      const { lastInsertRowid } = addCalibration.run(
        maker,
        model,
        serialNumber,
        adapter,
        dueOn,
        notedAtMs,
        session.number(),
        order,
      );
      session.link('calibration', Number(lastInsertRowid));
    },
    /** What counts now; null where nothing was noted or it was taken back. */
    calibrationDueOn: ({ maker, model, serialNumber, adapter }: WhichMeter): string | null =>
      lastCalibration.get(maker, model, serialNumber, serialNumber, adapter)?.dueOn ?? null,
    lastUse: (): MeterUseRow | undefined => lastUse.get(),
  };
}
