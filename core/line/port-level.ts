import type { LevelRow, SignalKind } from './level-row.ts';

/**
 * The level at the port from what the meter says at its test point.
 * @param meterDbmv        dBmV at the test point
 * @param testPointLossDb  dB, 0 or more: what the test point takes away
 * @returns  dBmV at the port
 * @source   contract, section 2, `testPointLossDb`
 */
const portLevelDbmv = (meterDbmv: number, testPointLossDb: number): number => meterDbmv + testPointLossDb;

/** What a meter said at one frequency; null where it has no level there, or no kind is known. */
export type MeterReading = Readonly<{
  frequencyMhz: number;
  meterDbmv: number | null;
  kind: SignalKind | null;
  /** As its source calls it: "256-QAM". */
  modulation?: string | undefined;
}>;

/**
 * A meter's readings as rows at the port.
 * @param readings         MHz, dBmV at the test point; any order
 * @param testPointLossDb  dB
 * @returns  as many rows, in the same order, levels in dBmV at the port; a reading without a level stays, without one
 * @source   contract, section 2, `testPointLossDb`
 */
export function rowsAtPort(readings: readonly MeterReading[], testPointLossDb: number): LevelRow[] {
  // A key is there only where something is known; no spread, which takes ten times as long, and thousands of sweeps come by.
  return readings.map(({ frequencyMhz, meterDbmv, kind, modulation }) => {
    const row: Mutable = {
      frequencyMhz,
      levelDbmv: meterDbmv === null ? null : portLevelDbmv(meterDbmv, testPointLossDb),
    };
    if (kind !== null) row.kind = kind;
    if (modulation !== undefined) row.modulation = modulation;
    return row;
  });
}

type Mutable = { -readonly [Key in keyof LevelRow]: LevelRow[Key] };
