/** What a level belongs to: analog carrier (peak), QAM (average), OFDM (per 6 MHz), continuous wave. */
export type SignalKind = 'analog' | 'qam' | 'ofdm' | 'cw';

/**
 * One row of a sweep as a file or a meter gave it.
 * `frequencyMhz` is null where the source names no single frequency, `levelDbmv` is null where it has no level;
 * such rows are kept so that they can be named when they are left out. Neither is ever NaN or infinite.
 * `unlocked` is true where the source itself says that the row is no reading.
 */
export type LevelRow = Readonly<{
  frequencyMhz: number | null;
  levelDbmv: number | null;
  kind?: SignalKind;
  modulation?: string;
  merDb?: number;
  label?: string;
  unlocked?: boolean;
  /** 1-based line of the file it was read from. */
  line?: number;
  /** Where the importer already knows why the row can't be used. */
  reason?: string;
}>;
