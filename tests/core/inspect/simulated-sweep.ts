import { inspectSweep } from '../../../core/inspect/all.ts';
import type { Finding } from '../../../core/inspect/finding.ts';
import type { LevelRow } from '../../../core/line/level-row.ts';
import { chanceFrom } from '../../../core/season/chance.ts';

/** Frequencies from low to high, MHz. */
export const raster = (lowMhz: number, highMhz: number, stepMhz: number): number[] =>
  Array.from({ length: Math.floor((highMhz - lowMhz) / stepMhz + 1e-9) + 1 }, (_, i) => lowMhz + i * stepMhz);

/** 136 channels of 6 MHz from 57 to 867 MHz. */
export const channels = raster(57, 867, 6);

/** A line that climbs 10 dB, a fault on it, and white noise from a seed. */
export function simulatedSweep(
  fault: (mhz: number) => number,
  {
    seed = 1,
    noiseDb = 0,
    mhz = channels,
  }: { seed?: number; noiseDb?: number; mhz?: readonly number[] } = {},
): LevelRow[] {
  const chance = chanceFrom(seed);
  return mhz.map((f) => ({
    frequencyMhz: f,
    levelDbmv: 36 + (10 * (f - 57)) / 810 + fault(f) + noiseDb * chance.normal(),
  }));
}

export const findingsIn = (rows: readonly LevelRow[]): readonly Finding[] => {
  const result = inspectSweep(rows);
  if (!result.ok) throw new Error(result.help);
  return result.value.findings;
};

/** The shape of the simulated meter's own notch: half of its depth at half of its width to each side. */
export const notchAt =
  (centerMhz: number, depthDb: number, widthMhz: number) =>
  (f: number): number =>
    -depthDb * 2 ** -(((2 * (f - centerMhz)) / widthMhz) ** 2);
export const rippleOf =
  (periodMhz: number, peakToPeakDb: number) =>
  (f: number): number =>
    (peakToPeakDb / 2) * Math.cos((2 * Math.PI * f) / periodMhz);
/** What an echo of amplitude r does: 20 log|1 + r e^(jx)|. */
export const echoOf =
  (ratio: number, periodMhz: number) =>
  (f: number): number => {
    const x = (2 * Math.PI * f) / periodMhz;
    return 20 * Math.log10(Math.hypot(1 + ratio * Math.cos(x), ratio * Math.sin(x)));
  };
